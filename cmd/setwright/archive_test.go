package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"setwright/layout/archive"
	"setwright/layout/oracle"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

// ran runs a command line and returns what it said and its exit status.
func ran(args ...string) (out, errs string, status int) {
	var o, e bytes.Buffer
	status = run(args, streams{strings.NewReader(""), &o, &e})
	return o.String(), e.String(), status
}

func saved(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestSamplesComeBack makes every sample's pack, far from its files, and wants
// it made again from nothing but itself; then recovers it and makes it once
// more from the files.
func TestSamplesComeBack(t *testing.T) {
	for _, plan := range samplePlans(t) {
		name := filepath.Base(filepath.Dir(plan))
		p, err := build(newSource(plan), nil, false)
		if err != nil {
			t.Fatal(err)
		}
		pack := saved(t, name+".pdf", p.pdf)
		out, errs, status := ran("verify", pack)
		if want := fmt.Sprintf("%s: the same, byte for byte: %d sheets\n", pack, len(p.drawn.Sheets)); status != 0 || out != want || errs != "" {
			t.Errorf("%s: %d %q %q", name, status, out, errs)
		}
		if out, errs, status = ran("recover", pack); status != 0 {
			t.Errorf("%s: %d %q %q", name, status, out, errs)
		}
		dir := strings.TrimSuffix(pack, ".pdf")
		for _, i := range p.project.Images() {
			data, err := os.ReadFile(filepath.Join(filepath.Dir(plan), i.Name))
			if err != nil {
				t.Fatal(err)
			}
			os.MkdirAll(filepath.Dir(filepath.Join(dir, i.Name)), 0o777)
			if err := os.WriteFile(filepath.Join(dir, i.Name), data, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		again, err := build(newSource(filepath.Join(dir, "plan.yaml")), nil, false)
		if err != nil || !bytes.Equal(again.pdf, p.pdf) {
			t.Errorf("%s: another pack from the recovered files (%v)", name, err)
		}
		unpacked, err := build(newSource(pack), nil, false)
		if err != nil || !bytes.Equal(unpacked.pdf, p.pdf) {
			t.Errorf("%s: another pack from the pack in place of its plan (%v)", name, err)
		}
	}
}

// TestPacksOfSeveral verifies the packs of the other commands.
func TestPacksOfSeveral(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	sample := func(path ...string) string {
		return filepath.Join(append([]string{moduleRoot, "samples"}, path...)...)
	}
	spring, children := sample("spring", "plan.yaml"), sample("children", "plan.yaml")
	list := saved(t, "list.csv", []byte("mark,length,count\na,40,7\nb,22.5,9\n"))
	for _, args := range [][]string{
		{"sheets", children, "-o", at("children.pdf")},
		{"kit", spring, children, "-o", at("kit.pdf"), "--parts", sample("year", "larkfield-parts.yaml"), "--stock", sample("year", "stock.csv")},
		{"compare", spring, at("children.pdf"), "-o", at("compare.pdf")},
		{"reset", spring, at("children.pdf"), "-o", at("reset.pdf"), "--parts", sample("year", "larkfield-parts.yaml"), "--stock", sample("year", "stock.csv")},
		{"reset", spring, sample("books", "plan.yaml"), "--rebuild", "-o", at("rebuild.pdf")},
		{"cut", list, "--stock", "96@21.50", "--stock", "144@30*2", "--kerf", "1/8", "-o", at("cut.pdf")},
	} {
		if out, errs, status := ran(args...); status == exitFailed {
			t.Fatalf("%q: %s%s", args, out, errs)
		}
		pack := args[len(args)-1]
		for i, arg := range args {
			if arg == "-o" {
				pack = args[i+1]
			}
		}
		if out, errs, status := ran("verify", pack); status != 0 || !strings.Contains(out, "the same, byte for byte") {
			t.Errorf("%s: %d %q %q", args[0], status, out, errs)
		}
	}
	_, errs, status := ran("check", at("kit.pdf"))
	if want := "kit.pdf: a pack made by setwright kit of 1/plan.yaml, 2/plan.yaml: get its files out"; status != exitFailed || !strings.Contains(errs, want) {
		t.Errorf("a kit in place of a plan: %d %q", status, errs)
	}
}

// TestForgedPacks changes a pack in every way that matters: what is said names
// what was changed.
func TestForgedPacks(t *testing.T) {
	for _, c := range []struct {
		reason string
		forge  func(t *testing.T, p *sheet.Pack)
		status int
		says   string
		silent string // what is not said
	}{
		{"nothing", func(*testing.T, *sheet.Pack) {}, 0, "the same, byte for byte", "not the same"},
		{"the plan", func(t *testing.T, p *sheet.Pack) {
			attachedFile(t, p, "plan.yaml").Data = append(bytes.Clone(attachedFile(t, p, "plan.yaml").Data), "# later\n"...)
		}, exitStopped, ":plan.yaml: error: it was changed after the pack was made", "goods"},
		{"the plan, and its hash", func(t *testing.T, p *sheet.Pack) {
			f := attachedFile(t, p, "plan.yaml")
			f.Data = bytes.Replace(f.Data, []byte("title: "), []byte("title: Another "), 1)
			toldOf(t, p, func(c *archive.Contents) { rehash(c, f) })
		}, exitStopped, "sheet 1, ", "byte for byte"},
		{"the built-in list and its hash: what the pack was made with counts", func(t *testing.T, p *sheet.Pack) {
			f := attachedFile(t, p, "built-in/hooks.yaml")
			f.Data = append(bytes.Clone(f.Data), "# of another version\n"...)
			toldOf(t, p, func(c *archive.Contents) { rehash(c, f) })
		}, 0, "the same, byte for byte", "not the same"},
		{"what the contents sum up", func(t *testing.T, p *sheet.Pack) {
			toldOf(t, p, func(c *archive.Contents) { c.Summary.Title = "Another" })
		}, exitStopped, "contents.json was changed: what it says of summary", "sheet "},
		{"a page", func(t *testing.T, p *sheet.Pack) {
			line := sheet.Line{From: sheet.Point{X: 1e7, Y: 1e7}, To: sheet.Point{X: 2e7, Y: 2e7}, Stroke: sheet.Stroke{Width: 1e6}}
			p.Sheets[2].Add(line)
		}, exitStopped, "sheet 3, ", "sheet 2, "},
		{"a sheet less", func(t *testing.T, p *sheet.Pack) {
			p.Sheets = p.Sheets[:len(p.Sheets)-1]
		}, exitStopped, "pages, not", "sheet "},
		{"another version, which draws the same", func(t *testing.T, p *sheet.Pack) {
			p.Creator = "Setwright 0.0.9"
			toldOf(t, p, func(c *archive.Contents) { c.Program = "Setwright 0.0.9" })
		}, 0, "(made by Setwright 0.0.9, made again by " + program + ")", "not the same"},
		{"another version, which drew a sheet otherwise", func(t *testing.T, p *sheet.Pack) {
			p.Creator = "Setwright 0.0.9"
			toldOf(t, p, func(c *archive.Contents) {
				c.Program = "Setwright 0.0.9"
				c.Sheets[1].SHA256 = archive.Sum([]byte("otherwise"))
			})
		}, exitStopped, "sheet 2, ", "sheet 3, "},
		{"a command there is not", func(t *testing.T, p *sheet.Pack) {
			toldOf(t, p, func(c *archive.Contents) { c.Command = "fold" })
		}, exitStopped, "cannot be made again: made by the command fold", "sheet "},
		{"a later format", func(t *testing.T, p *sheet.Pack) {
			toldOf(t, p, func(c *archive.Contents) { c.Format = 9 })
		}, exitFailed, "only a later version reads", "sheet "},
	} {
		p, err := draw(newSource(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml")), nil)
		if err != nil {
			t.Fatal(err)
		}
		c.forge(t, p.drawn)
		pack := saved(t, "boots.pdf", packBytes(t, p.drawn))
		out, errs, status := ran("verify", pack)
		told := out + errs
		if status != c.status || !strings.Contains(told, c.says) || strings.Contains(told, c.silent) {
			t.Errorf("%s: %d %s", c.reason, status, told)
		}
	}
}

func packBytes(t testing.TB, p *sheet.Pack) []byte {
	t.Helper()
	var b bytes.Buffer
	// Cut short on purpose, a pack may hold links that lead nowhere.
	names := map[string]bool{}
	for _, s := range p.Sheets {
		names[s.Name] = true
	}
	for _, s := range p.Sheets {
		for i, item := range s.Items {
			if link, ok := item.(sheet.Link); ok && !names[link.To] {
				link.To = p.Sheets[0].Name
				s.Items[i] = link
			}
		}
	}
	if err := pdf.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func attachedFile(t testing.TB, p *sheet.Pack, name string) *sheet.File {
	t.Helper()
	for i := range p.Files {
		if p.Files[i].Name == name {
			return &p.Files[i]
		}
	}
	t.Fatalf("no file %s", name)
	return nil
}

// toldOf changes what a pack says of itself.
func toldOf(t testing.TB, p *sheet.Pack, change func(*archive.Contents)) {
	t.Helper()
	f := attachedFile(t, p, archive.ContentsName)
	var c archive.Contents
	if err := json.Unmarshal(f.Data, &c); err != nil {
		t.Fatal(err)
	}
	change(&c)
	f.Data = c.JSON()
}

func rehash(c *archive.Contents, f *sheet.File) {
	for i := range c.Files {
		if c.Files[i].Name == f.Name {
			c.Files[i].Bytes, c.Files[i].SHA256 = len(f.Data), archive.Sum(f.Data)
		}
	}
}

// TestForgedRecovered: what was changed is told and not written, unless forced;
// names that lead elsewhere never are.
func TestForgedRecovered(t *testing.T) {
	p, err := draw(newSource(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml")), nil)
	if err != nil {
		t.Fatal(err)
	}
	attachedFile(t, p.drawn, "plan.yaml").Data = []byte("plan: 2\n")
	evil := sheet.File{Name: "aux.csv", Type: "text/csv", Relationship: "Source", Data: []byte("evil")}
	p.drawn.Files = append(p.drawn.Files, evil)
	toldOf(t, p.drawn, func(c *archive.Contents) {
		c.Files = append(c.Files, archive.Entry{Name: evil.Name, Role: "goods", Bytes: 4, SHA256: archive.Sum(evil.Data)})
		c.Files = append(c.Files, archive.Entry{Name: "../out.csv", Role: "goods", Bytes: 4, SHA256: archive.Sum(evil.Data)})
	})
	pack := saved(t, "boots.pdf", packBytes(t, p.drawn))
	dir := strings.TrimSuffix(pack, ".pdf")
	out, errs, status := ran("recover", pack)
	for _, want := range []string{":plan.yaml: error: it was changed", ":aux.csv: error: no pack has a file of that name", ":../out.csv: error"} {
		if status != exitFailed || out != "" || !strings.Contains(errs, want) {
			t.Errorf("%d %q %q, want %q", status, out, errs, want)
		}
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("something was written")
	}
	if out, errs, status = ran("recover", pack, "--force"); status != exitStopped {
		t.Errorf("forced: %d %q %q", status, out, errs)
	}
	if text, err := os.ReadFile(filepath.Join(dir, "plan.yaml")); err != nil || string(text) != "plan: 2\n" {
		t.Errorf("forced: %q, %v", text, err)
	}
	for _, name := range []string{filepath.Join(dir, "aux.csv"), filepath.Join(filepath.Dir(dir), "out.csv")} {
		if _, err := os.Stat(name); err == nil {
			t.Errorf("%s was written", name)
		}
	}
	if _, errs, status := ran("check", pack); status != exitFailed || !strings.Contains(errs, "what it was made from is not as it was: ") {
		t.Errorf("in place of its plan: %d %q", status, errs)
	}
}

// TestLinksInTheWay: a link in the folder leads nothing out of it.
func TestLinksInTheWay(t *testing.T) {
	p, err := build(newSource(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml")), nil, false)
	if err != nil {
		t.Fatal(err)
	}
	pack := saved(t, "boots.pdf", p.pdf)
	outside, dir := t.TempDir(), t.TempDir()
	if err := os.Symlink(outside, filepath.Join(dir, "built-in")); err != nil {
		t.Skip("no links here")
	}
	if _, errs, status := ran("recover", pack, "-o", dir); status != exitFailed {
		t.Errorf("%d %q", status, errs)
	}
	if _, errs, status := ran("recover", pack, "-o", dir, "--force"); status != exitFailed {
		t.Errorf("forced: %d %q", status, errs)
	}
	if entries, _ := os.ReadDir(outside); len(entries) > 0 {
		t.Errorf("%s was written outside the folder", entries[0].Name())
	}
}

// TestTruncatedPack cuts the spring pack at every kilobyte: each is an error of
// one line, or what is missing file by file, and nothing written; or else all the
// files, whole.
func TestTruncatedPack(t *testing.T) {
	p, err := build(newSource(spring), nil, false)
	if err != nil {
		t.Fatal(err)
	}
	refused := 0
	for size := 0; size < len(p.pdf); size += 1024 {
		pack := saved(t, "cut.pdf", p.pdf[:size])
		out, errs, status := ran("recover", pack)
		dir := strings.TrimSuffix(pack, ".pdf")
		if status == exitFailed {
			refused++
			oneLine := strings.HasPrefix(errs, "setwright: "+pack+": ") && strings.Count(errs, "\n") == 1
			byFile := strings.HasPrefix(errs, pack+":") && strings.Contains(errs, "it is not attached any more")
			if _, err := os.Stat(dir); err == nil || out != "" || !oneLine && !byFile {
				t.Fatalf("cut at %d: %q %q (%v)", size, out, errs, err)
			}
			continue
		}
		for _, f := range p.drawn.Files {
			if data, err := os.ReadFile(filepath.Join(dir, f.Name)); status != 0 || err != nil || !bytes.Equal(data, f.Data) {
				t.Fatalf("cut at %d: %d, %s: %v", size, status, f.Name, err)
			}
		}
	}
	if refused == 0 {
		t.Error("none was refused: this test tested nothing")
	}
}

// TestOthersPDFs: a PDF without sources, of whatever program, is told from a pack.
func TestOthersPDFs(t *testing.T) {
	p, err := draw(newSource(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml")), nil)
	if err != nil {
		t.Fatal(err)
	}
	p.drawn.Files = []sheet.File{{Name: "invoice.xml", Type: "text/xml", Relationship: "Data", Data: []byte("<a/>")}}
	pack := saved(t, "invoice.pdf", packBytes(t, p.drawn))
	for _, command := range []string{"recover", "verify", "check", "sheets"} {
		_, errs, status := ran(command, pack)
		if want := "setwright: " + pack + ": this PDF carries no sources\n"; status != exitFailed || errs != want {
			t.Errorf("%s: %d %q", command, status, errs)
		}
	}
}

// TestSavedAnew has other programs save packs with pictures: the files come out,
// and the pages are known again.
func TestSavedAnew(t *testing.T) {
	for _, sample := range []string{"spring", "photos"} {
		p, err := build(newSource(filepath.Join(moduleRoot, "samples", sample, "plan.yaml")), nil, false)
		if err != nil {
			t.Fatal(err)
		}
		before := saved(t, "before.pdf", p.pdf)
		for _, c := range []struct{ command, says string }{
			{"qpdf --object-streams=generate IN OUT", "saved anew by another program, or made by another build of this one; every page is drawn as it was"},
			{"qpdf --linearize IN OUT", "saved anew by another program, or made by another build of this one; every page is drawn as it was"},
			{"mutool clean -gggg IN OUT", "saved anew by another program, or made by another build of this one; every page is drawn as it was"},
			{"mutool clean -ggggz IN OUT", "saved anew by another program, or made by another build of this one; every page is drawn as it was"},
			{"gs -q -dNOPAUSE -dBATCH -sDEVICE=pdfwrite -o OUT IN", "every page is drawn anew, with the same text at the same places; lines, fills and pictures were not compared"},
		} {
			words := strings.Fields(c.command)
			oracle.Need(t, words[0])
			after := filepath.Join(t.TempDir(), "after.pdf")
			for i, w := range words {
				words[i] = strings.NewReplacer("IN", before, "OUT", after).Replace(w)
			}
			if out, err := exec.Command(words[0], words[1:]...).CombinedOutput(); err != nil {
				t.Fatalf("%s: %v: %s", c.command, err, out)
			}
			if out, errs, status := ran("verify", after); status != 0 || !strings.Contains(out, "the same content, not the same bytes: ") || !strings.Contains(out, c.says) {
				t.Errorf("%s, %s: %d %q %q", sample, c.command, status, out, errs)
			}
			if out, errs, status := ran("recover", after); status != 0 {
				t.Errorf("%s, %s: %d %q %q", sample, c.command, status, out, errs)
			}
		}
	}
}

// TestNotes: a stamp on a page is no part of the pack.
func TestNotes(t *testing.T) {
	python := oracle.NeedPython(t, "pikepdf")
	p, err := build(newSource(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml")), nil, false)
	if err != nil {
		t.Fatal(err)
	}
	before, after := saved(t, "before.pdf", p.pdf), filepath.Join(t.TempDir(), "after.pdf")
	const stamp = `
import pikepdf, sys
from pikepdf import Dictionary, Name, Array
p = pikepdf.open(sys.argv[1])
page = p.pages[1]
if Name.Annots not in page: page.Annots = Array([])
page.Annots.append(p.make_indirect(Dictionary(Type=Name.Annot, Subtype=Name.FreeText, Rect=[9,9,99,99], Contents="not this one")))
p.save(sys.argv[2])`
	if out, err := exec.Command(python, "-c", stamp, before, after).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, errs, status := ran("verify", after)
	if status != exitStopped || strings.Count(out, "\n") != 2 || !strings.Contains(out, ": notes or stamps were put on the page") || !strings.Contains(out, "sheet 2, ") {
		t.Errorf("%d %q %q", status, out, errs)
	}
}

// TestPacksJudged: packs with all that they carry are PDF/A-3b.
func TestPacksJudged(t *testing.T) {
	judge := oracle.NeedVeraPDF(t)
	for _, sample := range []string{"spring", "photos", "tools"} {
		p, err := build(newSource(filepath.Join(moduleRoot, "samples", sample, "plan.yaml")), nil, false)
		if err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(judge[0], append(judge[1:], saved(t, "pack.pdf", p.pdf))...).Output()
		if err != nil || !strings.HasSuffix(string(out), "\t3b compliant\n") {
			t.Errorf("%s: %s (%v)", sample, out, err)
		}
	}
}

// BenchmarkVerify makes the spring pack again in process.
func BenchmarkVerify(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	p, err := build(newSource(spring), nil, false)
	if err != nil {
		b.Fatal(err)
	}
	pack := saved(b, "spring.pdf", p.pdf)
	b.ReportAllocs()
	for b.Loop() {
		if out, errs, status := ran("verify", pack); status != 0 {
			b.Fatal(out, errs)
		}
	}
}

// BenchmarkVerifyProcess is the same, as the built program does it from start to
// end.
func BenchmarkVerifyProcess(b *testing.B) {
	dir := b.TempDir()
	program := filepath.Join(dir, "setwright")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	p, err := build(newSource(spring), nil, false)
	if err != nil {
		b.Fatal(err)
	}
	pack := saved(b, "spring.pdf", p.pdf)
	for b.Loop() {
		if out, err := exec.Command(program, "verify", pack).CombinedOutput(); err != nil {
			b.Fatalf("%v: %s", err, out)
		}
	}
}

// BenchmarkOpenPack gets out of the spring pack what a listing of a folder needs.
func BenchmarkOpenPack(b *testing.B) {
	p, err := build(newSource(spring), nil, false)
	if err != nil {
		b.Fatal(err)
	}
	pack := saved(b, "spring.pdf", p.pdf)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := openPack(pack); err != nil {
			b.Fatal(err)
		}
	}
}
