package render

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"setwright/fonts"
	"setwright/layout"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/render/sheet"
	"setwright/render/words"
)

// plans lists every plan there is to draw: samples and odd ones.
func plans(t testing.TB) []string {
	t.Helper()
	var all []string
	for _, pattern := range []string{"../samples/*/plan.yaml", "../testdata/odd/*/plan.yaml"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, found...)
	}
	if len(all) < 8 {
		t.Fatalf("found only %d plans", len(all))
	}
	sort.Strings(all)
	return all
}

func load(t testing.TB, plan string) *layout.Project {
	t.Helper()
	return layout.Load(os.DirFS(filepath.Dir(plan)), filepath.Base(plan))
}

func drawn(t testing.TB, p *layout.Project) *sheet.Pack {
	t.Helper()
	pack, err := Pack(p.Unit, p.Findings.All(), Options{Program: "setwright test", Fingerprint: p.Fingerprint, Images: p.Image, Report: p.Report})
	if err != nil {
		t.Fatal(err)
	}
	return pack
}

// each runs a check on the pack of every plan that resolves.
func each(t *testing.T, check func(t *testing.T, p *layout.Project, pack *sheet.Pack)) {
	for _, plan := range plans(t) {
		t.Run(filepath.Base(filepath.Dir(plan)), func(t *testing.T) {
			p := load(t, plan)
			if p.Unit == nil {
				t.Skipf("the plan does not resolve: %v", p.Findings.All())
			}
			check(t, p, drawn(t, p))
		})
	}
}

// No two texts overlap, nothing leaves the page.
func TestSheetsAreClean(t *testing.T) {
	each(t, func(t *testing.T, _ *layout.Project, pack *sheet.Pack) {
		for _, s := range pack.Sheets {
			for _, c := range sheet.Clashes(s) {
				if c.B < 0 {
					t.Errorf("%s: %s leaves the page", s.Name, label(s.Items[c.A]))
				} else {
					t.Errorf("%s: %s overlaps %s", s.Name, label(s.Items[c.A]), label(s.Items[c.B]))
				}
			}
		}
	})
}

func label(i sheet.Item) string {
	if t, ok := i.(sheet.Text); ok {
		return fmt.Sprintf("%q at %s,%s", t.S, t.At.X.MM(), t.At.Y.MM())
	}
	return fmt.Sprintf("%T at %s,%s", i, sheet.Bounds(i).Min.X.MM(), sheet.Bounds(i).Min.Y.MM())
}

// Every text lies within the frame and is at least 1.8 mm high (ISO 3098's
// smallest; what is smaller is not read off an office printer's sheet).
func TestLettering(t *testing.T) {
	least := fonts.EmFor(1800 * measure.Micrometre)
	each(t, func(t *testing.T, _ *layout.Project, pack *sheet.Pack) {
		for _, s := range pack.Sheets {
			frame := frameOf(t, s)
			for _, item := range s.Items {
				text, ok := item.(sheet.Text)
				if !ok {
					continue
				}
				if text.Size < least {
					t.Errorf("%s: %s is %s mm, too small", s.Name, label(item), text.Size.MM())
				}
				if !frame.Holds(sheet.TextBox(text)) {
					t.Errorf("%s: %s leaves the frame", s.Name, label(item))
				}
			}
		}
	})
}

// frameOf is the first thing drawn on every sheet.
func frameOf(t *testing.T, s *sheet.Sheet) sheet.Rect {
	t.Helper()
	path, ok := s.Items[0].(sheet.Path)
	if !ok || len(path.Points) != 4 {
		t.Fatalf("%s does not begin with its frame", s.Name)
	}
	return sheet.Rect{Min: path.Points[0], Max: path.Points[2]}
}

// Every row and position address, and every balloon of what hangs on a face,
// is on the face's drawings.
func TestEverythingIsNamed(t *testing.T) {
	each(t, func(t *testing.T, p *layout.Project, pack *sheet.Pack) {
		lines := list.Pick(p.Unit)
		balloon := list.Balloons(lines)
		for _, f := range p.Unit.Faces {
			hardware, goods := texts(pack, string(f.ID)+"-hardware"), texts(pack, string(f.ID)+"-goods")
			for _, r := range f.Rows {
				if !hardware[r.Address] {
					t.Errorf("row %s is not on the hardware elevation", r.Address)
				}
				for _, piece := range r.All() {
					if n := fmt.Sprint(balloon(piece.Part, piece.Cut)); !hardware[n] {
						t.Errorf("balloon %s (%s) is not on the %s elevation", n, piece.Part.ID, f.ID)
					}
				}
				for _, pos := range r.Positions {
					if !goods[pos.Address] {
						t.Errorf("position %s is not on the goods elevation", pos.Address)
					}
				}
			}
		}
	})
}

// texts gathers the texts of the sheets of a section that carry a drawing.
func texts(pack *sheet.Pack, section string) map[string]bool {
	found := map[string]bool{}
	for _, s := range pack.Sheets {
		if !strings.HasPrefix(s.Name, section) {
			continue
		}
		for _, item := range s.Items {
			if t, ok := item.(sheet.Text); ok {
				found[t.S] = true
			}
		}
	}
	return found
}

// Names are unique, links lead somewhere, sheets are numbered through.
func TestLinksAndNumbers(t *testing.T) {
	each(t, func(t *testing.T, _ *layout.Project, pack *sheet.Pack) {
		names := map[string]bool{}
		for _, s := range pack.Sheets {
			if names[s.Name] {
				t.Errorf("two sheets are called %s", s.Name)
			}
			names[s.Name] = true
		}
		for _, s := range pack.Sheets {
			for _, item := range s.Items {
				if l, ok := item.(sheet.Link); ok && !names[l.To] {
					t.Errorf("%s: a link leads to %q, which is no sheet", s.Name, l.To)
				}
			}
		}
	})
}

// The same plan gives the same sheets.
func TestSameSheetsTwice(t *testing.T) {
	p := load(t, "../samples/spring/plan.yaml")
	a, b := drawn(t, p), drawn(t, p)
	for i := range a.Sheets {
		if sheet.Dump(a.Sheets[i]) != sheet.Dump(b.Sheets[i]) {
			t.Errorf("sheet %s differs from one run to the next", a.Sheets[i].Name)
		}
	}
}

func BenchmarkPack(b *testing.B) {
	p := load(b, "../samples/spring/plan.yaml")
	b.ReportAllocs()
	for b.Loop() {
		drawn(b, p)
	}
}

// Every plan comes out clean on every paper, in every language and measure:
// zones, tables and columns are laid out anew for each.
func TestEveryPaperAndLanguage(t *testing.T) {
	if testing.Short() {
		t.Skip("some seconds")
	}
	for _, plan := range plans(t) {
		p := load(t, plan)
		if p.Unit == nil {
			continue
		}
		for i, paper := range []string{"letter", "tabloid", "a4", "a3"} {
			for k, language := range []string{"en", "es", "fr"} {
				u, pl := *p.Unit, *p.Unit.Plan
				pl.Paper, pl.Language, pl.Measure = paper, language, measure.System((i+k)%2)
				u.Plan = &pl
				pack, err := Pack(&u, p.Findings.All(), Options{Report: p.Report})
				if err != nil {
					t.Fatal(err)
				}
				name := fmt.Sprintf("%s %s %s", filepath.Base(filepath.Dir(plan)), paper, language)
				for _, s := range pack.Sheets {
					clean(t, name, s)
				}
			}
		}
	}
}

func clean(t *testing.T, name string, s *sheet.Sheet) {
	t.Helper()
	frame := frameOf(t, s)
	for _, c := range sheet.Clashes(s) {
		if c.B < 0 {
			t.Errorf("%s, %s: %s leaves the page", name, s.Name, label(s.Items[c.A]))
		} else {
			t.Errorf("%s, %s: %s overlaps %s", name, s.Name, label(s.Items[c.A]), label(s.Items[c.B]))
		}
	}
	for _, item := range s.Items {
		if text, ok := item.(sheet.Text); ok && !frame.Holds(sheet.TextBox(text)) {
			t.Errorf("%s, %s: %s leaves the frame", name, s.Name, label(item))
		}
	}
}

// The sheets come in reading order: the crew builds from the front of the
// pack to its back.
func TestOrder(t *testing.T) {
	pack := drawn(t, load(t, "../samples/spring/plan.yaml"))
	var names []string
	for _, s := range pack.Sheets {
		if s.Depth == 0 {
			names = append(names, s.Name)
		}
	}
	want := "cover unit front-hardware front-goods right-hardware right-goods back-hardware back-goods left-hardware left-goods pick-list pick-by-face loads position-key key-by-name key-by-sku restock tags findings statics sign-off"
	if got := strings.Join(names, " "); got != want {
		t.Errorf("sheets come as %s, want %s", got, want)
	}
}

// A stop finding marks every sheet; without one none is.
func TestNotForConstruction(t *testing.T) {
	p := load(t, "../samples/peg-end/plan.yaml")
	for _, c := range []struct {
		level  diag.Level
		marked bool
		reason string
	}{
		{diag.Caution, false, "a caution leaves the sheets good to build from"},
		{diag.Stop, true, "a stop does not"},
	} {
		pack, err := Pack(p.Unit, []diag.Finding{{Level: c.level, Code: "trial", Message: "trial"}}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		band := words.In(p.Unit.Plan.Language).NotForConstruction
		for _, s := range pack.Sheets {
			marked := false
			for _, item := range s.Items {
				if text, ok := item.(sheet.Text); ok && text.S == band {
					marked = true
				}
			}
			if marked != c.marked {
				t.Errorf("%s: marked is %v: %s", s.Name, marked, c.reason)
			}
			clean(t, c.reason, s)
		}
	}
}

// The page model of a small plan, whole: a change of drawing shows as text.
func TestSmallGolden(t *testing.T) {
	pack := drawn(t, load(t, "../testdata/odd/one-product/plan.yaml"))
	var all strings.Builder
	for _, s := range pack.Sheets {
		all.WriteString(sheet.Dump(s))
	}
	golden.Check(t, filepath.Join("testdata", "one-product.sheets.txt"), all.String())
}

// A unit that is not whole is an error, not a panic.
func TestNoUnit(t *testing.T) {
	if _, err := Pack(nil, nil, Options{}); err == nil {
		t.Error("no error for no unit")
	}
}

// Every rule has its title in every language: the checks' own are English.
func TestRulesAreTranslated(t *testing.T) {
	for _, tag := range words.Languages() {
		seen := map[string]string{}
		for _, r := range check.Rules() {
			title := words.In(tag).RuleTitle(r.ID, r.Title)
			if seen[title] != "" {
				t.Errorf("%s: %s and %s are both %q", tag, seen[title], r.ID, title)
			}
			seen[title] = r.ID
			if tag != "en" && title == r.Title {
				t.Errorf("%s: %s is still %q", tag, r.ID, title)
			}
		}
	}
}

// What the plan waives is printed with its reason, and marked among the rules.
func TestWaivedRulesArePrinted(t *testing.T) {
	p := load(t, "../samples/peg-end/plan.yaml")
	report := p.Report
	report.Waived = []check.Waiver{{Rule: "reach", Because: "staff fetch what hangs high"}}
	pack, err := Pack(p.Unit, nil, Options{Report: report})
	if err != nil {
		t.Fatal(err)
	}
	w, found := words.In(p.Unit.Plan.Language), texts(pack, "findings")
	for _, want := range []string{w.Waived, "reach", "staff fetch what hangs high", w.WaivedMark} {
		if !found[want] {
			t.Errorf("the findings sheet does not print %q", want)
		}
	}
	for _, s := range pack.Sheets {
		clean(t, "waived", s)
	}
}

// Without an assessment there is no statics sheet, and nothing else is amiss.
func TestNoAssessment(t *testing.T) {
	p := load(t, "../samples/peg-end/plan.yaml")
	pack, err := Pack(p.Unit, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range pack.Sheets {
		if strings.HasPrefix(s.Name, "statics") {
			t.Errorf("there is a sheet %s", s.Name)
		}
		clean(t, "no assessment", s)
	}
}
