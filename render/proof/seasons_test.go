package proof

import (
	"os"
	"testing"

	"setwright/layout/archive"
	"setwright/layout/buy"
	"setwright/layout/kit"
	"setwright/layout/seasons"
	"setwright/render"
	"setwright/render/pdf"
)

func TestStripTemp(t *testing.T) {
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}, {"a3", "en"}} {
		list, _ := yearOf(t, as[0], as[1], kit.Named)
		var packs []seasons.Pack
		for _, s := range list {
			packs = append(packs, seasons.Pack{File: s.File, Mark: s.Mark, Summary: archive.Summarize(s.Unit, nil, buy.Purchase{})})
		}
		line, _ := seasons.Make(packs)
		f, _ := os.Create("/tmp/sz/strip" + as[0] + ".pdf")
		if err := pdf.Write(f, render.Seasons(line, render.Options{Program: "x", Fingerprint: "0000-0000"})); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}
