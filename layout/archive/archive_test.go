package archive

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// material is two plans with a parts list of the house, and pictures.
func material() Material {
	return Material{
		Program: "Setwright 1.0", Command: "kit", Fingerprint: "7F3A-91C2",
		Sets: []Set{
			{Called: "spring/plan.yaml", Sources: []Source{
				{"plan.yaml", "plan", []byte("plan: 1")}, {"goods/tea.csv", "goods", []byte("sku\n")}, {"goods/tea.csv", "goods", []byte("sku\n")},
			}, Pictures: []Picture{{Name: "tea.png", SHA256: "ab", Width: 3, Height: 2, Print: "cd"}}},
			{Called: "summer.yaml", Sources: []Source{{"summer.yaml", "plan", []byte("plan: 1 ")}}},
		},
		Parts:   &Source{`C:\prices\parts.yaml`, "parts", []byte("parts: {}")},
		BuiltIn: []Source{{"z.yaml", BuiltInRole, []byte("z")}, {"a.yaml", BuiltInRole, []byte("a")}},
		Sheets:  []Sheet{{"cover", "Cover", "ef"}},
	}
}

func TestMake(t *testing.T) {
	files := Make(material())
	var got []string
	for _, f := range files {
		got = append(got, f.Name+" "+f.Type)
	}
	want := []string{
		"contents.json application/json",
		"1/goods/tea.csv text/csv", "1/plan.yaml application/yaml", "2/summer.yaml application/yaml",
		"built-in/a.yaml application/yaml", "built-in/z.yaml application/yaml", "house/parts/parts.yaml application/yaml",
	}
	slices.Sort(got[1:])
	slices.Sort(want[1:])
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	a, found := Open(files)
	if len(found) > 0 {
		t.Fatal(found)
	}
	if d := cmp.Diff([]Plan{{File: "1/plan.yaml", Called: "spring/plan.yaml"}, {File: "2/summer.yaml", Called: "summer.yaml"}}, a.Contents.Plans); d != "" {
		t.Error(d)
	}
	if a.Contents.Parts.Called != `C:\prices\parts.yaml` || a.Contents.Pictures[0].Plan != 0 {
		t.Errorf("%+v", a.Contents)
	}
	if b := a.BuiltIn(); len(b) != 2 || b[0].Name != "z.yaml" {
		t.Errorf("built-in files %v: not in the order they were read", b)
	}
	if again := Make(material()); !bytes.Equal(again[0].Data, files[0].Data) {
		t.Error("the same material makes other contents")
	}
}

func TestFS(t *testing.T) {
	a, _ := Open(Make(material()))
	for _, c := range []struct {
		plan   int
		name   string
		there  bool
		reason string
	}{
		{0, "plan.yaml", true, "the plan itself"},
		{0, "goods/tea.csv", true, "in a folder under it"},
		{1, "goods/tea.csv", false, "another plan's"},
		{0, "../2/summer.yaml", false, "another plan's, by a way round"},
		{0, "built-in/a.yaml", false, "no plan's"},
		{1, "", false, "no name"},
	} {
		text, err := fs.ReadFile(a.FS(c.plan), c.name)
		if (err == nil) != c.there {
			t.Errorf("%s (%s): %q, %v", c.name, c.reason, text, err)
		}
	}
	info, err := fs.Stat(a.FS(0), "goods/tea.csv")
	if err != nil || info.Size() != 4 || !info.Mode().IsRegular() || info.Name() != "tea.csv" {
		t.Errorf("%v %v", info, err)
	}
}

// TestNamesMadeUp wants every name that a plan may use kept where it can be, and
// another made up where not, by which the plan still finds its file.
func TestNamesMadeUp(t *testing.T) {
	for _, c := range []struct{ name, attached, reason string }{
		{"goods.csv", "goods.csv", "as it is"},
		{"été/thé.csv", "été/thé.csv", "letters with accents"},
		{"contents.json", "1/contents.json", "the pack's own name: into a folder"},
		{"Contents.JSON", "1/Contents.JSON", "the same to some systems"},
		{"built-in/x.csv", "1/built-in/x.csv", "a folder of the pack's own"},
		{"house/x.csv", "1/house/x.csv", "another"},
		{"con.csv", "goods-1.csv", "a device of Windows"},
		{"a:b.csv", "goods-1.csv", "a sign that Windows has for drives"},
		{"tab\there.csv", "goods-1.csv", "a control character"},
		{"dot./x", "goods-1", "a step that ends in a dot"},
		{"Plan.yaml", "goods-1.yaml", "the plan's name but for a capital"},
	} {
		m := Material{Sets: []Set{{Called: "plan.yaml", Sources: []Source{{"plan.yaml", "plan", []byte("p")}, {c.name, "goods", []byte("g")}}}}}
		a, found := Open(Make(m))
		if len(found) > 0 {
			t.Errorf("%q: %v", c.name, found)
			continue
		}
		if got := a.Contents.Files[1].Name; got != c.attached {
			t.Errorf("%q (%s): attached as %q, want %q", c.name, c.reason, got, c.attached)
		}
		if f, ok := a.named(folderOf(a.Contents.Plans[0].File), c.name); !ok || string(f.Data) != "g" {
			t.Errorf("%q (%s): the plan does not find it", c.name, c.reason)
		}
	}
}

func TestSafe(t *testing.T) {
	for _, c := range []struct {
		name   string
		safe   bool
		reason string
	}{
		{"plan.yaml", true, "a name"},
		{"a/b/c.csv", true, "folders"},
		{"concert.csv", true, "only begins like a device"},
		{"com10.csv", true, "there is no such device"},
		{"", false, "nothing"},
		{".", false, "the folder itself"},
		{"..", false, "out of it"},
		{"../x", false, "out of it"},
		{"a/../../x", false, "out of it by a way round"},
		{"/x", false, "from the root"},
		{"a//b", false, "an empty step"},
		{`a\b`, false, "a slash to Windows"},
		{`C:\x`, false, "a drive"},
		{"C:x", false, "a drive"},
		{"x.txt:stream", false, "a stream behind a file"},
		{"con", false, "a device"},
		{"a/NUL.txt", false, "a device whatever follows"},
		{"com1 .csv", false, "a device, with a blank that is dropped"},
		{"LPT¹", false, "a device, by a superscript"},
		{"a.", false, "a dot that Windows drops"},
		{"a /b", false, "a blank that Windows drops"},
		{" a", false, "a blank nobody sees"},
		{"a\x00b", false, "ends a string in C"},
		{"a\u202egnp.exe", false, "turns the writing round"},
		{"a\xff", false, "not UTF-8"},
		{"what?", false, "a wildcard"},
		{strings.Repeat("x", 201), false, "longer than systems allow"},
		{strings.Repeat("x/", 600) + "x", false, "a path longer than systems allow"},
	} {
		if Safe(c.name) != c.safe {
			t.Errorf("%q (%s): safe %v", c.name, c.reason, !c.safe)
		}
	}
}

// TestForged changes attached files in every way and wants each said by name.
func TestForged(t *testing.T) {
	for _, c := range []struct {
		reason string
		change func(files []File) []File
		want   string // code and name; "" for none
	}{
		{"nothing", func(f []File) []File { return f }, ""},
		{"one letter", func(f []File) []File { return replaced(f, "1/plan.yaml", "plan: 2") }, "forged-source 1/plan.yaml"},
		{"more letters", func(f []File) []File { return replaced(f, "1/plan.yaml", "plan: 1\n") }, "forged-source 1/plan.yaml"},
		{"a file is gone", func(f []File) []File { return f[:len(f)-1] }, "missing-source 2/summer.yaml"},
		{"a file is there twice", func(f []File) []File { return append(f, File{Name: "2/summer.yaml"}) }, "two-files 2/summer.yaml"},
		{"no contents", func(f []File) []File { return f[1:] }, "no-contents "},
		{"contents cut short", func(f []File) []File { return replaced(f, ContentsName, `{"format":1`) }, "bad-contents contents.json"},
		{"contents of a later version", func(f []File) []File { return replaced(f, ContentsName, `{"format":2}`) }, "bad-contents contents.json"},
		{"a file that is not a pack's", func(f []File) []File { return append(f, File{Name: "../evil"}) }, ""},
	} {
		_, found := Open(c.change(Make(material())))
		got := ""
		if len(found) > 0 {
			got = found[0].Code + " " + found[0].At.File
		}
		if got != c.want || len(found) > 1 {
			t.Errorf("%s: %q and %d more, want %q", c.reason, got, len(found)-1, c.want)
		}
	}
}

// TestEvilContents lists files under names that lead elsewhere: nobody gets them.
func TestEvilContents(t *testing.T) {
	for _, name := range []string{"../x", "/x", `C:\x`, "con", "x/../../y", "Contents.json", "PLAN.yaml"} {
		files := Make(Material{Sets: []Set{{Called: "plan.yaml", Sources: []Source{{"plan.yaml", "plan", []byte("p")}}}}})
		var c Contents
		if err := json.Unmarshal(files[0].Data, &c); err != nil {
			t.Fatal(err)
		}
		c.Files = append(c.Files, Entry{Name: name, Role: "goods", Bytes: 1, SHA256: Sum([]byte("e"))})
		files[0].Data = c.JSON()
		a, found := Open(append(files, File{Name: name, Data: []byte("e")}))
		if len(found) != 1 || found[0].Code != "unsafe-name" {
			t.Errorf("%q: %v", name, found)
		}
		for _, f := range a.Files() {
			if f.Name == name {
				t.Errorf("%q is among the files to be written", name)
			}
		}
	}
}

func replaced(files []File, name, text string) []File {
	for i := range files {
		if files[i].Name == name {
			files[i].Data = []byte(text)
		}
	}
	return files
}

// FuzzRead reads any contents: those that are taken can be used whole.
func FuzzRead(f *testing.F) {
	f.Add(Make(material())[0].Data)
	f.Add([]byte(`{"format":1,"plans":[{"file":"a"}],"files":[{"name":"a"}],"pictures":[{"plan":-1}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		a, _ := Open([]File{{Name: ContentsName, Data: text}})
		if a == nil {
			return
		}
		for i := range a.Contents.Plans {
			_, _ = a.FS(i).Open("plan.yaml")
		}
		for _, p := range a.Contents.Pictures {
			_ = a.Contents.Plans[p.Plan]
		}
		for _, file := range a.Files() {
			if !Safe(file.Name) {
				t.Fatalf("%q is to be written", file.Name)
			}
		}
	})
}
