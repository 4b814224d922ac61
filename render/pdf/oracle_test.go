package pdf_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/layout/oracle"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
)

// saved writes the pack to a file for a program to read.
func saved(t *testing.T, p *sheet.Pack) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pack.pdf")
	if err := os.WriteFile(path, written(t, p), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// output runs a program and returns what it prints; it must succeed.
func output(t *testing.T, program string, args ...string) string {
	t.Helper()
	var complaints bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s%s", filepath.Base(program), err, out, complaints.String())
	}
	if complaints.Len() > 0 {
		t.Errorf("%s complains: %s", filepath.Base(program), complaints.String())
	}
	return string(out)
}

func packs(t *testing.T) map[string]*sheet.Pack {
	empty := onePage()
	empty.Title, empty.Language = "Empty (sheet", "en"
	return map[string]*sheet.Pack{"full": fullPack(), "pictures": withPictures(t), "files": withFiles(), "empty": empty}
}

func TestQpdfFindsNoFault(t *testing.T) {
	qpdf := oracle.Need(t, "qpdf")
	for reason, p := range packs(t) {
		if out := output(t, qpdf, "--check", saved(t, p)); !strings.Contains(out, "No syntax or stream encoding errors") {
			t.Errorf("%s: %s", reason, out)
		}
	}
}

// The reader understands files of another build: qpdf packs the same document
// into object streams under a cross-reference stream.
func TestReaderAgreesOnRepackedFile(t *testing.T) {
	qpdf := oracle.Need(t, "qpdf")
	for reason, p := range packs(t) {
		path := saved(t, p)
		repacked := path + ".2"
		output(t, qpdf, "--object-streams=generate", path, repacked)
		data, err := os.ReadFile(repacked)
		if err != nil {
			t.Fatal(err)
		}
		got, err := pdftest.Read(data)
		if err != nil {
			t.Fatalf("%s: %v", reason, err)
		}
		want := readBack(t, p)
		got.ID[1], want.ID[1] = "", "" // a changed file gets a new second half
		for _, doc := range []*pdftest.Document{got, want} {
			for i := range doc.Pages {
				for k := range doc.Pages[i].Images {
					doc.Pages[i].Images[k].Object = 0 // numbers are qpdf's own
				}
			}
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", reason, d)
		}
	}
}

func TestEveryFontIsEmbedded(t *testing.T) {
	out := output(t, oracle.Need(t, "pdffonts"), saved(t, fullPack()))
	lines := strings.Split(strings.TrimSpace(out), "\n")[2:]
	if len(lines) != fonts.Faces {
		t.Fatalf("%d fonts: %s", len(lines), out)
	}
	for _, line := range lines {
		if !regexp.MustCompile(`Identity-H\s+yes yes yes`).MatchString(line) { // embedded, subset, with Unicode
			t.Error(line)
		}
	}
}

func TestTextIsExtractable(t *testing.T) {
	words := []string{"F-2-3", "Été 54½″", "15⁄16 × ⌀6 ±3°", "☐ ▲ → “tea”", "Łódź ș ß", "(a\\b) <c>"}
	p := onePage()
	for i, s := range words {
		p.Sheets[0].Add(sheet.Text{At: at(20*mm, measure.Length(20+10*i)*mm), S: s, Size: 4 * mm, Face: fonts.Face(i % 2)})
	}
	got := strings.TrimSpace(output(t, oracle.Need(t, "pdftotext"), "-layout", saved(t, p), "-"))
	got = regexp.MustCompile(`\n\s*`).ReplaceAllString(got, "\n")
	if d := cmp.Diff(strings.Join(words, "\n"), got); d != "" {
		t.Error(d)
	}
}

// mutool's own interpreter sees each line where ours does.
func TestMutoolSeesTheSameLines(t *testing.T) {
	trace := output(t, oracle.Need(t, "mutool"), "trace", saved(t, fullPack()), "3")
	number := `(-?[\d.]+)`
	found := regexp.MustCompile(`transform="1 0 0 -1 0 `+number+`"[^>]*>\s*<moveto x="`+number+`" y="`+number+`"/>\s*<lineto x="`+number+`" y="`+number+`"/>\s*</stroke_path>`).FindAllStringSubmatch(trace, -1)
	lines := readBack(t, fullPack()).Pages[2].Lines
	if len(found) != len(lines) || len(lines) == 0 {
		t.Fatalf("mutool sees %d lines, the reader %d", len(found), len(lines))
	}
	for i, groups := range found {
		n := floats(t, groups[1:])
		want := [4]float64{lines[i].From.X, lines[i].From.Y, lines[i].To.X, lines[i].To.Y}
		for k, got := range [4]float64{n[1], n[0] - n[2], n[3], n[0] - n[4]} {
			if math.Abs(got*25.4/72-want[k]) > close {
				t.Fatalf("line %d: mutool %v, reader %v", i, n, want)
			}
		}
	}
}

func floats(t *testing.T, words []string) []float64 {
	t.Helper()
	out := make([]float64, len(words))
	for i, w := range words {
		var err error
		if out[i], err = strconv.ParseFloat(w, 64); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

const plumber = `
import json, sys, pdfplumber
out = []
for page in pdfplumber.open(sys.argv[1]).pages:
    out.append([[c["text"], c["x0"], c["x1"], page.height - c["matrix"][5], c["upright"], c["size"]] for c in page.chars])
print(json.dumps(out))
`

// pdfplumber's interpreter sees each upright character where ours puts the
// text: the first begins at At, the last ends at End.
func TestPdfplumberSeesTheSameText(t *testing.T) {
	python := oracle.NeedPython(t, "pdfplumber")
	var pages [][][]any
	if err := json.Unmarshal([]byte(output(t, python, "-c", plumber, saved(t, fullPack()))), &pages); err != nil {
		t.Fatal(err)
	}
	doc := readBack(t, fullPack())
	for i, page := range doc.Pages {
		chars := pages[i]
		for _, text := range page.Texts {
			n := len([]rune(text.S))
			if len(chars) < n {
				t.Fatalf("page %d: too few characters", i+1)
			}
			said := ""
			for _, c := range chars[:n] {
				said += c[0].(string)
			}
			x0, x1, y := chars[0][1].(float64), chars[n-1][2].(float64), chars[0][3].(float64)
			const widthRounding = 0.005 // mm: pdfplumber sums advances of single characters
			if said != text.S || math.Abs(x0*25.4/72-text.At.X) > close || math.Abs(y*25.4/72-text.At.Y) > close || math.Abs(x1*25.4/72-text.End().X) > widthRounding {
				t.Fatalf("page %d: %q from %v to %v at %v, reader %+v", i+1, said, x0, x1, y, text)
			}
			chars = chars[n:]
		}
		if len(chars) > 0 {
			t.Errorf("page %d: %d characters too many", i+1, len(chars))
		}
	}
}
