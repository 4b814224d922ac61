package proof

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/kit"
	"setwright/layout/measure"
	layoutplan "setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"setwright/render"
	"setwright/render/pdf/pdftest"
	"setwright/render/words"
)

// night is one reset, its pack read back.
type night struct {
	*reset.Reset
	words *words.Words
	doc   *pdftest.Document
}

// nightChecks are what the sheets of every reset must pass.
var nightChecks = []struct {
	name  string
	check func(n *night, t *testing.T)
}{
	{"tidy", func(n *night, t *testing.T) { tidy(t, n.doc) }},
	{"figures", (*night).figures},
	{"steps", (*night).stepList},
	{"drawings", (*night).drawings},
	{"goods", (*night).goods},
	{"stock", (*night).stock},
}

// TestReset reads the sheets of every reset back.
func TestReset(t *testing.T) {
	eachNight(t, func(t *testing.T, n *night) {
		for _, c := range nightChecks {
			t.Run(c.name, func(t *testing.T) { c.check(n, t) })
		}
	})
}

// eachNight draws the resets between the gondolas of the year, on several papers
// in all languages.
func eachNight(t *testing.T, check func(t *testing.T, n *night)) {
	year := []string{"spring", "children", "shirts", "sweets", "boots"}
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}} {
		seasons, _ := yearOf(t, as[0], as[1], kit.Named)
		of := map[string]*unit.Unit{}
		for _, s := range seasons {
			of[strings.TrimSuffix(s.File, ".yaml")] = s.Unit
		}
		for i := range year[1:] {
			t.Run(strings.Join([]string{year[i], year[i+1], as[0], as[1]}, " "), func(t *testing.T) {
				check(t, drawNight(t, of[year[i]], of[year[i+1]]))
			})
		}
	}
}

func drawNight(t *testing.T, old, new *unit.Unit) *night {
	t.Helper()
	r := reset.Make(old, new, reset.Options{})
	o := render.ResetOptions{Options: render.Options{Program: "Setwright under proof", Fingerprint: "0000-0000"}, OldMark: "1111-1111", NewMark: "2222-2222"}
	return &night{r, words.In(new.Plan.Language), inPDF(t, render.Reset(r, r.Findings, r.Findings, o))}
}

// pages are those whose bookmark is the title, or the title continued.
func (n *night) pages(title string) []*pdftest.Page {
	var list []*pdftest.Page
	for _, b := range n.doc.Outlines {
		if b.Title == title || strings.HasPrefix(b.Title, title+" (") {
			list = append(list, &n.doc.Pages[b.Page])
		}
	}
	return list
}

// faceName is a face as the sheets name it.
func (n *night) faceName(id layoutplan.FaceID) string {
	w := n.words
	return map[layoutplan.FaceID]string{layoutplan.Front: w.FrontFace, layoutplan.Right: w.RightFace, layoutplan.Back: w.BackFace, layoutplan.Left: w.LeftFace}[id]
}

// figures holds the cover against the units: what stays, moves and goes
// is all that hung there, what stays, moves and comes is all that is to hang.
func (n *night) figures(t *testing.T) {
	cover := &n.doc.Pages[0]
	marks := map[string][2]int{}
	for i, name := range []string{n.words.KeepName, n.words.MoveName, n.words.AddName, n.words.PullName} {
		var figures []int
		for _, text := range onLine(cover, name) {
			if v, err := strconv.Atoi(text); err == nil {
				figures = append(figures, v)
			}
		}
		if len(figures) != 2 {
			t.Fatalf("%s: figures %v", name, figures)
		}
		marks["KMAP"[i:i+1]] = [2]int(figures)
	}
	pieces, facings, units := [2]int{}, [2]int{}, [2]int{}
	for i, u := range []*unit.Unit{n.Old, n.New} {
		for _, f := range u.Faces {
			for _, row := range f.Rows {
				pieces[i] += len(row.All())
				for _, p := range row.Positions {
					facings[i] += len(p.Fronts)
					units[i] += p.Units
				}
			}
		}
	}
	for i, all := range [][2]int{pieces, facings} {
		if got := marks["K"][i] + marks["M"][i] + marks["P"][i]; got != all[0] {
			t.Errorf("K, M and P are %d, the old unit has %d", got, all[0])
		}
		if got := marks["K"][i] + marks["M"][i] + marks["A"][i]; got != all[1] {
			t.Errorf("K, M and A are %d, the new unit has %d", got, all[1])
		}
	}
	back, come := valueOf(t, cover, n.words.UnitsBack), valueOf(t, cover, n.words.UnitsCome)
	if units[0]-back+come != units[1] {
		t.Errorf("%d units less %d and %d more are not %d", units[0], back, come, units[1])
	}
	if got := valueOf(t, cover, n.words.StepCount); got != len(n.Steps) {
		t.Errorf("%d steps, the cover says %d", len(n.Steps), got)
	}
}

// onLine is what stands behind a name on its line, from the left.
func onLine(page *pdftest.Page, name string) []string {
	var list []pdftest.Text
	for _, head := range page.Texts {
		if head.S != name {
			continue
		}
		for _, text := range page.Texts {
			if near(text.At.Y, head.At.Y, exact) && text.At.X > head.At.X {
				list = append(list, text)
			}
		}
		break
	}
	slices.SortFunc(list, func(a, b pdftest.Text) int { return int(math.Copysign(1, a.At.X-b.At.X)) })
	var words []string
	for _, text := range list {
		words = append(words, text.S)
	}
	return words
}

func valueOf(t *testing.T, page *pdftest.Page, name string) int {
	t.Helper()
	if line := onLine(page, name); len(line) > 0 {
		if n, err := strconv.Atoi(line[0]); err == nil {
			return n
		}
	}
	t.Errorf("%q has no figure", name)
	return 0
}

// readStep is a step as the step list has it.
type readStep struct {
	number  int
	seconds int
	text    string
}

// readSteps reads the step list: a step begins with a number that ends under the
// end of the head of its column.
func (n *night) readSteps(t *testing.T) []readStep {
	t.Helper()
	var list []readStep
	for _, page := range n.pages(n.words.StepList) {
		var head, do, clock *pdftest.Text
		for i := range page.Texts {
			text := &page.Texts[i]
			switch {
			case text.S == n.words.StepHead && head == nil && bold(*text):
				head = text
			case text.S == n.words.DoHead && bold(*text):
				do = text
			case text.S == n.words.TimeHead && clock == nil && bold(*text):
				clock = text
			}
		}
		if head == nil || do == nil || clock == nil {
			continue // the sums have gone on to a sheet of their own
		}
		for _, text := range page.Texts {
			switch {
			case text.At.Y <= head.At.Y || bold(text):
			case near(text.End().X, head.End().X, 0.05):
				if v, err := strconv.Atoi(text.S); err == nil {
					list = append(list, readStep{number: v})
				}
			case near(text.At.X, do.At.X, 0.05) && len(list) > 0 && !strings.Contains(text.S, n.words.ResetTimes[:10]):
				list[len(list)-1].text += text.S + " "
			case near(text.End().X, clock.End().X, 0.05) && len(list) > 0:
				if a, b, ok := strings.Cut(text.S, ":"); ok && list[len(list)-1].seconds == 0 {
					m, _ := strconv.Atoi(a)
					s, _ := strconv.Atoi(b)
					list[len(list)-1].seconds = 60*m + s
				}
			}
		}
	}
	return list
}

// stepList wants every step once and in order, with its time, and in its
// words every part with its count, every new place along the face, every
// position with its facings and units.
func (n *night) stepList(t *testing.T) {
	list := n.readSteps(t)
	if len(list) != len(n.Steps) {
		t.Fatalf("%d steps are listed, there are %d", len(list), len(n.Steps))
	}
	sum := 0
	for i := range list {
		read, step := list[i], &n.Steps[i]
		if read.number != i+1 || step.Number != i+1 {
			t.Errorf("step %d is the %d. on the list", read.number, i+1)
		}
		if read.seconds != step.Seconds {
			t.Errorf("step %d: %d s, want %d", read.number, read.seconds, step.Seconds)
		}
		sum += read.seconds
		said := squeeze(read.text)
		for _, want := range n.wanted(step) {
			if !strings.Contains(said, squeeze(want)) {
				t.Errorf("step %d does not say %q: %s", read.number, want, read.text)
			}
		}
	}
	if sum != n.Seconds {
		t.Errorf("the steps' times are %d s together, the reset takes %d", sum, n.Seconds)
	}
}

// squeeze leaves blanks and breaks out.
func squeeze(s string) string { return strings.Join(strings.Fields(s), "") }

// wanted is what a step's words must have in them, worked out from its acts.
func (n *night) wanted(step *reset.Step) (list []string) {
	figure := func(l measure.Length) string { return n.words.Decimal(l.Figure(n.New.Plan.Measure)) }
	parts, facings := map[string]int{}, map[string]int{}
	var names, addresses []string
	for _, act := range step.Acts {
		if item := act.Item; item != nil {
			if parts[item.Part.Name] == 0 {
				names = append(names, item.Part.Name)
			}
			parts[item.Part.Name]++
			if item.To != nil && step.Verb != reset.SetAside && step.Verb != reset.TakeDown {
				face, p := item.To.Face, item.To.Piece
				list = append(list, fmt.Sprintf(n.words.NewRow, item.To.Row.Address))
				if len(p.Grips) == 1 {
					list = append(list, figure(p.X))
				}
				if p == item.To.Row.Pieces[0] && act.Item == step.Acts[0].Item {
					list = append(list, " "+strconv.Itoa(p.Slot), figure(face.SlotHeight(p.Slot)))
				}
			}
			if item.From != nil && step.Verb != reset.Hang {
				list = append(list, fmt.Sprintf(n.words.OldRow, item.From.Row.Address))
			}
		}
		if f := act.Facing; f != nil {
			spot := f.To
			if step.Verb == reset.TakeOff {
				spot = f.From
			}
			key := spot.Position.Address + " " + spot.Position.Product.Name
			if facings[key] == 0 {
				addresses = append(addresses, key)
			}
			if f.Way == reset.Fetch || f.Way == reset.Return || f.Way == reset.Rehang {
				facings[key]++
			}
		}
	}
	for _, name := range names {
		list = append(list, fmt.Sprintf("%d × %s", parts[name], name))
	}
	for _, key := range addresses {
		list = append(list, key)
		if k := facings[key]; k > 1 {
			list = append(list, key+", "+fmt.Sprintf(n.words.FacingMany, k))
		}
	}
	return list
}

// stock holds pull sheet and net pick list against the units themselves: of every
// part and product, what the one has more than the other.
func (n *night) stock(t *testing.T) {
	parts, units := map[string]int{}, map[string]int{}
	for sign, u := range map[int]*unit.Unit{-1: n.Old, 1: n.New} {
		for _, f := range u.Faces {
			for _, row := range f.Rows {
				for _, p := range row.All() {
					parts[p.Part.Name+"|"+p.Cut.MM()] += sign
				}
				for _, p := range row.Positions {
					units[p.Product.SKU] += sign * p.Units
				}
			}
		}
	}
	for name, more := range units {
		n.listed(t, name, more)
	}
	for key, more := range parts {
		if name, cut, _ := strings.Cut(key, "|"); cut == "0" { // those that are cut have a line a length, of one name
			n.listed(t, name, more)
		}
	}
}

// listed wants a name on the list of what comes, or goes, with that number, and
// not on the other.
func (n *night) listed(t *testing.T, name string, more int) {
	t.Helper()
	for title, want := range map[string]int{n.words.PullSheet: max(-more, 0), n.words.NetPick: max(more, 0)} {
		var line []string
		for _, page := range n.pages(title) {
			line = append(line, onLine(page, name)...)
		}
		switch {
		case want == 0 && len(line) > 0:
			t.Errorf("%s: %s is there with %q", title, name, line)
		case want > 0 && !slices.Contains(line, strconv.Itoa(want)):
			t.Errorf("%s: %s has %q, want %d", title, name, line, want)
		}
	}
}

// TestResetOfNothing: the same plan twice is one sheet that says so.
func TestResetOfNothing(t *testing.T) {
	seasons, _ := yearOf(t, "", "", kit.Named)
	n := drawNight(t, seasons[0].Unit, seasons[0].Unit)
	if len(n.doc.Pages) != 1 || !slices.ContainsFunc(n.doc.Pages[0].Texts, func(x pdftest.Text) bool { return x.S == n.words.NothingChanges }) {
		t.Errorf("%d sheets, want one that says that nothing changes", len(n.doc.Pages))
	}
}

// TestResetOfAnyPlans rebuilds each plan into the next, whatever they are: sheets
// stay tidy, and every step is listed.
func TestResetOfAnyPlans(t *testing.T) {
	list, err := plans()
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range list {
		next := list[(i+1)%len(list)]
		t.Run(p.name+" to "+next.name, func(t *testing.T) {
			r := reset.Make(p.project.Unit, next.project.Unit, reset.Options{Rebuild: true})
			n := &night{r, next.words, inPDF(t, render.Reset(r, nil, r.Findings, render.ResetOptions{}))}
			tidy(t, n.doc)
			if got := len(n.readSteps(t)); got != len(r.Steps) {
				t.Errorf("%d steps are listed, there are %d", got, len(r.Steps))
			}
		})
	}
}
