package render

import (
	"bytes"
	"testing"

	"setwright/layout/archive"
	"setwright/layout/seasons"
	"setwright/render/pdf"
)

// FuzzSeasons draws whatever contents say of a pack: they may have been made by
// anyone, and neither panic nor go on for ever.
func FuzzSeasons(f *testing.F) {
	const head = `{"format":1,"program":"p","command":"sheets","fingerprint":"0000-0000","plans":[{"file":"p","called":"p"}],"files":[{"name":"p","role":"plan","bytes":0,"sha256":""}],"sheets":[],"summary":`
	for _, summary := range []string{
		`{"title":"Spring","date":"2027-02-15","measure":"in","paper":"letter","language":"en","unit":{"frame":"f","stand":"s","panels":[{"face":"front","part":"p","bays":2}],"width":1,"depth":2,"height":3},"parts":[{"id":"hook","group":"hooks","count":3}],"products":[{"sku":"S","name":"N","fronts":1,"at":["F-1-1"]}],"findings":[{"level":"stop","code":"c","count":1}],"faces":[{"face":"front","width":12192,"panels":[[0,1500,6096,16740]],"standing":[[0,0,10,10]],"hardware":[[10,2000,600,2200]],"goods":[{"family":"Seeds","fronts":[[10,2200,300,2700]]}]}]}`,
		`{"date":"9999-12-31","measure":"mm","paper":"a3","language":"fr","faces":[{"face":"left","width":0,"panels":null}]}`,
		`{"date":"0001-01-01","revision":"","faces":[{"face":"back","width":1000000,"hardware":[[-1000000,-1000000,1000000,1000000]]}]}`,
		`{"title":"\u0000\u202e\ufeff"}`,
		`{}`,
	} {
		f.Add([]byte(head+summary+"}"), "2027-03-01", "B")
	}
	f.Add([]byte(head+`{"date":"000r-01-01"}}`), "2027-02-30", "")
	f.Fuzz(func(t *testing.T, text []byte, date, revision string) {
		c, err := archive.Read(text)
		if err != nil || c.Summary == nil {
			return
		}
		other := *c.Summary
		other.Date, other.Revision = date, revision
		line, _ := seasons.Make([]seasons.Pack{{File: "a.pdf", Mark: "a", Summary: *c.Summary}, {File: "b.pdf", Mark: "b", Summary: other}})
		line.Tables(line.Manner().System())
		p := Seasons(line, Options{Program: "p", Fingerprint: "0000-0000"})
		if len(p.Sheets) != 1 {
			t.Fatalf("%d sheets", len(p.Sheets))
		}
		if err := pdf.Write(&bytes.Buffer{}, p); err != nil {
			t.Fatal(err)
		}
	})
}
