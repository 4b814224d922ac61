package pdf_test

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/render/pdf"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
)

// withFiles is a pack with files that are hard to carry.
func withFiles() *sheet.Pack {
	p := onePage(sheet.Text{At: at(20*mm, 20*mm), S: "Files", Size: 4 * mm})
	p.Title, p.Language, p.Date = "Files", "en", "2027-02-15"
	noise := make([]byte, 300_000)
	random := rand.New(rand.NewPCG(5, 6))
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	add := func(name, kind, relationship, description, data string) {
		p.Files = append(p.Files, sheet.File{Name: name, Type: kind, Relationship: relationship, Description: description, Data: []byte(data)})
	}
	add("plan.yaml", "application/yaml", "Source", "The plan", "title: Spring\n")                                                   // what most are like
	add("goods/spring goods (1).csv", "text/csv", "Source", "What “Larkfield” sells, ½ price", strings.Repeat("sku,name\r\n", 900)) // a path, brackets, words beyond ASCII
	add("étagères/año ß.csv", "text/csv", "Data", "", "é\n")                                                                        // Latin letters
	add("Łódź/漢字🌱.json", "application/vnd.api+json", "Supplement", "Σ", "{}")                                                       // of no one-byte set, and one beyond U+FFFF
	add("3 0 R", "application/octet-stream", "Data", "4 0 R", ">>\nendstream\nendobj\n3 0 obj\n<</Type/Catalog>>\nendobj\n")        // reads like the file it is in
	add("plan", "text/plain", "Data", "", "no plan")                                                                                // the beginning of another name comes before it
	add("Zero.txt", "text/plain", "Unspecified", "", "")                                                                            // nothing in it; capitals sort before small letters
	add("a/b/c/d.bin", "application/octet-stream", "Alternative", "", string(noise))                                                // cannot be made smaller
	return p
}

// wanted is what files come back as.
func wanted(p *sheet.Pack, modified string) []pdftest.File {
	var list []pdftest.File
	for _, f := range p.Files {
		list = append(list, pdftest.File{
			Name: f.Name, Type: f.Type, Relationship: f.Relationship, Description: f.Description, Modified: modified, Data: f.Data,
		})
	}
	return list
}

func TestFilesComeBack(t *testing.T) {
	p := withFiles()
	if d := cmp.Diff(wanted(p, "D:20270215000000Z"), readBack(t, p).Files); d != "" {
		t.Error(d)
	}
	p.Date = ""
	if d := cmp.Diff(wanted(p, ""), readBack(t, p).Files); d != "" {
		t.Error("without a date: ", d)
	}
	p.Files = nil
	if data := written(t, p); bytes.Contains(data, []byte("/AF")) || bytes.Contains(data, []byte("/Names")) {
		t.Error("a pack without files speaks of them")
	}
}

func TestFilesRefused(t *testing.T) {
	good := sheet.File{Name: "plan.yaml", Type: "text/yaml", Relationship: "Source"}
	for _, c := range []struct {
		reason, want string
		spoil        func(*sheet.File)
	}{
		{"nobody could ask for it", "attached file 2 has no name", func(f *sheet.File) { f.Name = "" }},
		{"one would hide the other", `two attached files are named "plan.yaml"`, func(f *sheet.File) { f.Name = "plan.yaml" }},
		{"outside the folder", "not a path", func(f *sheet.File) { f.Name = "../plan.yaml" }},
		{"outside in the end", "not a path", func(f *sheet.File) { f.Name = "goods/../../plan.yaml" }},
		{"from the root", "not a path", func(f *sheet.File) { f.Name = "/etc/plan.yaml" }},
		{"another system's slash", "not a path", func(f *sheet.File) { f.Name = `..\plan.yaml` }},
		{"a folder", "not a path", func(f *sheet.File) { f.Name = "goods/" }},
		{"this folder", "not a path", func(f *sheet.File) { f.Name = "." }},
		{"a file in no folder", "not a path", func(f *sheet.File) { f.Name = "goods//a.csv" }},
		{"a name of two lines", "not a path", func(f *sheet.File) { f.Name = "a\nb" }},
		{"too long for a string", "not a path", func(f *sheet.File) { f.Name = strings.Repeat("é/", 8191) + "x" }},
		{"no text", "not a path", func(f *sheet.File) { f.Name = "a\xffb" }},
		{"what kind?", `"" is not a media type`, func(f *sheet.File) { f.Type = "" }},
		{"half a kind", `"text/" is not a media type`, func(f *sheet.File) { f.Type = "text/" }},
		{"the other half", `"/csv" is not a media type`, func(f *sheet.File) { f.Type = "/csv" }},
		{"a kind of three parts", "is not a media type", func(f *sheet.File) { f.Type = "text/csv/x" }},
		{"parameters are no part of the kind", "is not a media type", func(f *sheet.File) { f.Type = "text/csv; charset=utf-8" }},
		{"it would end the name", "is not a media type", func(f *sheet.File) { f.Type = "text/a>>" }},
		{"names stop at 127 bytes", "is not a media type", func(f *sheet.File) { f.Type = "text/" + strings.Repeat("x", 123) }},
		{"what is it to the pack?", `relationship "" is none of`, func(f *sheet.File) { f.Relationship = "" }},
		{"no word of PDF's", `relationship "Cousin" is none of`, func(f *sheet.File) { f.Relationship = "Cousin" }},
	} {
		p, bad := onePage(), good
		bad.Name = "second.yaml"
		c.spoil(&bad)
		p.Files = []sheet.File{good, bad}
		var b bytes.Buffer
		if err := pdf.Write(&b, p); err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: error %v with %d bytes written, want %q and none", c.reason, err, b.Len(), c.want)
		}
	}
	p := onePage()
	p.Files = []sheet.File{good, {Name: "..plan", Type: "text/" + strings.Repeat("x", 122), Relationship: "Data"}} // just inside
	p.Files[0].Name = strings.Repeat("é/", 8190) + "xy"
	readBack(t, p)
}

// Whatever a file is called, it is refused or comes back as it was.
func FuzzFile(f *testing.F) {
	for _, name := range []string{"plan.yaml", "a/b.csv", "../x", "é", "\xfe\xff\x00a", "1 0 R", "a)b", "\ufeffx", "🌱", "\u0085", "C:x"} {
		f.Add(name, "text/csv", "about it", []byte("a,b"))
	}
	f.Add("a", "image/svg+xml", "\xff", []byte("\nendstream"))
	f.Add("a", "a/b#2Fc", "", []byte{})
	f.Fuzz(func(t *testing.T, name, kind, description string, data []byte) {
		p := onePage()
		p.Files = []sheet.File{
			{Name: "plan.yaml", Type: "text/yaml", Relationship: "Source"},
			{Name: name, Type: kind, Relationship: "Data", Description: description, Data: data},
		}
		var b bytes.Buffer
		if err := pdf.Write(&b, p); err != nil {
			if b.Len() > 0 {
				t.Error("written in part")
			}
			return
		}
		doc, err := pdftest.Read(b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		got := doc.Files[1]
		if got.Name != name || got.Type != kind || !bytes.Equal(got.Data, data) {
			t.Errorf("%q of %q came back as %q of %q", name, kind, got.Name, got.Type)
		}
	})
}
