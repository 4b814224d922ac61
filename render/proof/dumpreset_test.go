package proof

import (
	"bytes"
	"os"
	"testing"

	"setwright/layout/kit"
	"setwright/layout/reset"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

func TestDumpReset(t *testing.T) {
	out := os.Getenv("DUMP")
	if out == "" {
		t.Skip()
	}
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}} {
		seasons, _ := yearOf(t, as[0], as[1], kit.Named)
		for i := range seasons[1:] {
			r := reset.Make(seasons[i].Unit, seasons[i+1].Unit, reset.Options{})
			if len(r.Steps) == 0 {
				fakeSteps(r)
			}
			p := render.Reset(r, nil, nil, render.ResetOptions{OldMark: "aaaa", NewMark: "bbbb"})
			for _, s := range p.Sheets {
				for _, c := range sheet.Clashes(s) {
					t.Log(i, as, s.Name, s.Items[c.A], c.B)
				}
			}
			var b bytes.Buffer
			if err := pdf.Write(&b, p); err != nil {
				t.Fatal(err)
			}
			os.WriteFile(out+as[0]+string(rune('0'+i))+".pdf", b.Bytes(), 0o666)
		}
	}
}
