package proof

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/list"
	"setwright/layout/oracle"
	"setwright/render/pdf/pdftest"
)

// eachSample runs a check with an outside program on every sample, or on one
// of them unless SETWRIGHT_ORACLES asks for all: starting programs is slow.
func eachSample(t *testing.T, check func(t *testing.T, p *plan)) {
	t.Helper()
	all := os.Getenv("SETWRIGHT_ORACLES") == "1"
	each(t, func(t *testing.T, p *plan) {
		if !p.sample() || !all && p.name != "samples/spring" {
			t.Skip("SETWRIGHT_ORACLES=1 checks every sample")
		}
		check(t, p)
	})
}

// saved writes a plan's pack for programs to read.
func (p *plan) saved(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pack.pdf")
	if err := os.WriteFile(path, p.file, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// drawn lists the sheets with a scale, and their numbers for programs.
func (p *plan) drawn() (list []*page, numbers string) {
	var all []string
	for _, pg := range p.sheets {
		if pg.den > 0 {
			list = append(list, pg)
			all = append(all, strconv.Itoa(pg.number))
		}
	}
	return list, strings.Join(all, ",")
}

// output runs a program, which must succeed without complaint.
func output(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	var complaints bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("%s: %v\n%s%s", filepath.Base(program), err, out, complaints.String())
	}
	return out
}

func TestQpdf(t *testing.T) {
	qpdf := oracle.Need(t, "qpdf")
	eachSample(t, func(t *testing.T, p *plan) {
		if out := output(t, qpdf, "--check", p.saved(t)); !bytes.Contains(out, []byte("No syntax or stream encoding errors")) {
			t.Errorf("%s", out)
		}
	})
}

// number matches a number of mutool's.
const number = `(-?[\d.]+(?:e-?\d+)?)`

// TestMutoolMeasuresTheSame traces every elevation and plan view with
// mutool's own interpreter: it draws without complaint, and each straight line
// is where our reader has it. So the lengths measured here are not our
// reader's opinion.
func TestMutoolMeasuresTheSame(t *testing.T) {
	mutool := oracle.Need(t, "mutool")
	line := regexp.MustCompile(`transform="` + strings.Repeat(number+" ", 5) + number + `"[^>]*>\s*<moveto x="` + number + `" y="` + number + `"/>\s*<lineto x="` + number + `" y="` + number + `"/>\s*</stroke_path>`)
	eachSample(t, func(t *testing.T, p *plan) {
		drawn, numbers := p.drawn()
		traces := bytes.Split(output(t, mutool, "trace", p.saved(t), numbers), []byte("<page "))[1:]
		if len(traces) != len(drawn) {
			t.Fatalf("mutool sees %d pages of %d", len(traces), len(drawn))
		}
		for i, pg := range drawn {
			trace := traces[i]
			found := line.FindAllSubmatch(trace, -1)
			if len(found) != len(pg.Lines) || len(found) == 0 {
				t.Fatalf("sheet %d: mutool sees %d lines, our reader %d", pg.number, len(found), len(pg.Lines))
			}
			for i, groups := range found {
				var n [10]float64
				for k := range n {
					n[k], _ = strconv.ParseFloat(string(groups[k+1]), 64)
				}
				for k, want := range [2]pdftest.Point{pg.Lines[i].From, pg.Lines[i].To} {
					x, y := n[6+2*k], n[7+2*k]
					got := pdftest.Point{X: (n[0]*x + n[2]*y + n[4]) * 25.4 / 72, Y: (n[1]*x + n[3]*y + n[5]) * 25.4 / 72}
					if math.Hypot(got.X-want.X, got.Y-want.Y) > 0.001 {
						t.Fatalf("sheet %d: mutool has line %d end at %v, our reader at %v", pg.number, i, got, want)
					}
				}
			}
		}
	})
}

const plumber = `
import json, sys, pdfplumber
mm = 25.4 / 72
out = []
for page in pdfplumber.open(sys.argv[1], pages=[int(n) for n in sys.argv[2].split(",")]).pages:
    out.append([[c["text"], c["matrix"][4] * mm, (float(page.height) - c["matrix"][5]) * mm] for c in page.chars])
print(json.dumps(out))
`

// TestPdfplumberReadsTheSame reads the lettering of every elevation and plan
// view with pdfplumber: each text begins where our reader has it.
func TestPdfplumberReadsTheSame(t *testing.T) {
	python := oracle.NeedPython(t, "pdfplumber")
	eachSample(t, func(t *testing.T, p *plan) {
		drawn, numbers := p.drawn()
		var pages [][][3]any
		if err := json.Unmarshal(output(t, python, "-c", plumber, p.saved(t), numbers), &pages); err != nil {
			t.Fatal(err)
		}
		for i, pg := range drawn {
			chars := pages[i]
			for _, text := range pg.Texts {
				runes := []rune(text.S)
				if len(chars) < len(runes) {
					t.Fatalf("sheet %d: too few characters", pg.number)
				}
				said := ""
				for _, c := range chars[:len(runes)] {
					said += c[0].(string)
				}
				x, y := chars[0][1].(float64), chars[0][2].(float64)
				if said != text.S || math.Hypot(x-text.At.X, y-text.At.Y) > 0.002 {
					t.Fatalf("sheet %d: pdfplumber reads %q at %.3f, %.3f; our reader %q at %.3f, %.3f", pg.number, said, x, y, text.S, text.At.X, text.At.Y)
				}
				chars = chars[len(runes):]
			}
			if len(chars) > 0 {
				t.Errorf("sheet %d: %d characters too many", pg.number, len(chars))
			}
		}
	})
}

func TestPdffonts(t *testing.T) {
	pdffonts := oracle.Need(t, "pdffonts")
	eachSample(t, func(t *testing.T, p *plan) {
		lines := strings.Split(strings.TrimSpace(string(output(t, pdffonts, p.saved(t)))), "\n")
		if len(lines) < 3 {
			t.Fatalf("no fonts: %s", lines)
		}
		for _, l := range lines[2:] {
			if !regexp.MustCompile(`Identity-H\s+yes yes yes`).MatchString(l) { // embedded, subset, with Unicode
				t.Errorf("not embedded whole: %s", l)
			}
		}
	})
}

// TestPdftotext extracts the text: every SKU and every address of the position
// key comes out whole, and so does every line of the index by name, with the SKU
// before the first address of its product.
func TestPdftotext(t *testing.T) {
	pdftotext := oracle.Need(t, "pdftotext")
	eachSample(t, func(t *testing.T, p *plan) {
		file := p.saved(t)
		text := func(k kind) string {
			pages := p.of(k, "")
			return string(output(t, pdftotext, "-layout", "-f", strconv.Itoa(pages[0].number), "-l", strconv.Itoa(pages[len(pages)-1].number), file, "-"))
		}
		key, index := text(positionKey), text(keyByName)
		whole := func(word string) bool {
			return regexp.MustCompile(`(?m)(^|\s)` + regexp.QuoteMeta(word) + `(\s|$)`).MatchString(key)
		}
		for _, l := range list.Stock(p.project.Unit) {
			for _, k := range l.Keys {
				if !whole(k.Position.Address) || !whole(l.Product.SKU) {
					t.Errorf("%s and %s do not come out of the key", k.Position.Address, l.Product.SKU)
				}
			}
			if first := l.Keys[0].Position.Address; !regexp.MustCompile(`(?m)` + regexp.QuoteMeta(l.Product.SKU) + `\s.*\s` + first + `\s`).MatchString(index) {
				t.Errorf("%s and %s do not come out on one line", l.Product.SKU, first)
			}
		}
	})
}

// TestSmallInGrey draws every sheet small and grey, as a bad printer would: at
// 60 dots an inch, 60 % of a rough 100. No sheet comes out blank or black.
func TestSmallInGrey(t *testing.T) {
	pdftoppm := oracle.Need(t, "pdftoppm")
	eachSample(t, func(t *testing.T, p *plan) {
		dir := t.TempDir()
		output(t, pdftoppm, "-r", "60", "-gray", p.saved(t), filepath.Join(dir, "sheet"))
		files, _ := filepath.Glob(filepath.Join(dir, "*.pgm"))
		if len(files) != len(p.sheets) {
			t.Fatalf("%d pictures of %d sheets", len(files), len(p.sheets))
		}
		for i, file := range files {
			share, err := inkShare(file)
			if err != nil {
				t.Fatal(err)
			}
			if share < 0.01 || share > 0.35 {
				t.Errorf("sheet %d: %.1f %% of the paper is inked", i+1, 100*share)
			}
		}
	})
}

// inkShare is how much of a grey picture is darker than pale grey.
func inkShare(file string) (float64, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return 0, err
	}
	var width, height, white int
	if _, err := fmt.Fscanf(bytes.NewReader(data), "P5\n%d %d\n%d", &width, &height, &white); err != nil || len(data) < width*height {
		return 0, fmt.Errorf("%s: not a grey picture (%v)", file, err)
	}
	dark := 0
	for _, v := range data[len(data)-width*height:] {
		if v < 200 {
			dark++
		}
	}
	return float64(dark) / float64(width*height), nil
}
