package proof

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/oracle"
	"setwright/layout/reset"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

// TestVeraPDF has packs of every kind judged as PDF/A-3b by veraPDF: of all
// samples as written and on other papers in all languages, with their sources
// attached; cut lists, the year's kit, its plans side by side, a reset, and its
// strip. So that the judge is known to see faults, it is shown some.
func TestVeraPDF(t *testing.T) {
	judge := oracle.NeedVeraPDF(t)
	dir := t.TempDir()
	var paths []string
	wants := map[string]string{} // by path: a part of the verdict
	add := func(name string, data []byte, want string) {
		path := filepath.Join(dir, strings.ReplaceAll(name, "/", "-")+".pdf")
		if _, twice := wants[path]; twice {
			t.Fatal("two packs are named ", name)
		}
		paths, wants[path] = append(paths, path), want
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for name, p := range everyKind(t) {
		add(name, inBytes(t, p), "3b compliant")
	}
	whole := inBytes(t, &sheet.Pack{Title: "Whole", Sheets: []*sheet.Sheet{{Name: "one", Width: 210e6, Height: 297e6}}, Files: []sheet.File{
		{Name: "plan.yaml", Type: "text/yaml", Relationship: "Source"},
	}})
	add("whole", whole, "3b compliant")
	for _, fault := range []struct{ name, right, wrong, verdict string }{ // of one length: nothing moves
		{"no output intent", "/OutputIntents", "/OutputIntentX", "6.2.4.3 test 2"},
		{"a file that belongs to nothing", "/AF[", "/XF[", "6.8 test 4"},
		{"a file of no kind", "text#2Fyaml", "textXXXyaml", "6.8 test 1"},
		{"of another part of the standard", "part>3<", "part>4<", "6.6.4 test 2"},
	} {
		faulty := bytes.Replace(whole, []byte(fault.right), []byte(fault.wrong), 1)
		add(fault.name, faulty, fault.verdict)
	}

	verdicts := strings.Split(strings.TrimSuffix(string(output(t, judge[0], append(judge[1:], paths...)...)), "\n"), "\n")
	if len(verdicts) != len(paths) {
		t.Fatalf("%d verdicts on %d files", len(verdicts), len(paths))
	}
	for i, line := range verdicts {
		path, verdict, _ := strings.Cut(line, "\t")
		if path != paths[i] || !strings.Contains(verdict, wants[path]) {
			t.Errorf("%s: %s, not %s", filepath.Base(path), verdict, wants[paths[i]])
		}
	}
	t.Logf("%d files judged", len(paths))
}

// everyKind makes packs of every kind, by what they are.
func everyKind(t *testing.T) map[string]*sheet.Pack {
	t.Helper()
	packs := map[string]*sheet.Pack{}
	o := render.Options{Program: "Setwright under proof", Fingerprint: "0000-0000"}
	list, err := plans()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list {
		if !strings.HasPrefix(p.name, "samples/") {
			continue
		}
		whole := *p.pack
		whole.Files = p.sources(t)
		packs[p.name] = &whole
		if len(p.project.Cuts) > 0 {
			packs["cuts of "+p.name] = render.CutPack(p.project.Plan, p.project.Cuts, o)
		}
	}
	for _, tongue := range []string{"en", "es", "fr"} {
		seasons, hand := yearOf(t, "", tongue, kit.Named)
		k, found := kit.Make(seasons, hand)
		packs["kit "+tongue] = render.Kit(k, found, found, o)
		seasons, hand = yearOf(t, "", tongue, kit.Titled)
		options, found := kit.Options(seasons, hand, make([][]diag.Finding, len(seasons)))
		packs["options "+tongue] = render.Compare(options, found, found, o)
		night := reset.Make(options[0].Unit, options[1].Unit, reset.Options{})
		packs["reset "+tongue] = render.Reset(night, nil, night.Findings, render.ResetOptions{Options: o})
		packs["strip "+tongue] = render.Seasons(timelineOf(seasons), o)
	}
	return packs
}

// sources are all files beside the plan, ready to be attached.
func (p *plan) sources(t *testing.T) (files []sheet.File) {
	t.Helper()
	types := map[string]string{".yaml": "text/yaml", ".csv": "text/csv", ".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg"}
	err := fs.WalkDir(p.files, ".", func(path string, d fs.DirEntry, err error) error {
		kind := types[filepath.Ext(path)]
		if err != nil || d.IsDir() || kind == "" {
			return err
		}
		data, err := fs.ReadFile(p.files, path)
		files = append(files, sheet.File{Name: path, Type: kind, Relationship: "Source", Description: p.name, Data: data})
		return err
	})
	if err != nil || len(files) == 0 {
		t.Fatalf("%s: %d sources (%v)", p.name, len(files), err)
	}
	return files
}

func inBytes(t *testing.T, p *sheet.Pack) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := pdf.Write(&file, p); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}
