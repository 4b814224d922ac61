package proof

import (
	"fmt"
	"math"
	"regexp"
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

// shown is an elevation on a page: where the face's left edge and the floor are.
type elevation struct {
	page     *pdftest.Page
	x, floor float64
	den      float64
}

// elevations finds the elevations of a page from the left: each stands on a
// floor that reaches 8 mm past its panels.
func elevations(page *pdftest.Page) []elevation {
	den := 0.0
	for _, text := range page.Texts {
		if m := regexp.MustCompile(`^1:(\d+)`).FindStringSubmatch(text.S); m != nil {
			den, _ = strconv.ParseFloat(m[1], 64)
		}
	}
	var list []elevation
	for _, l := range page.Lines {
		if near(l.Pen.Width, 0.5, exact) && near(l.From.Y, l.To.Y, exact) && l.To.X < page.Width-25 || near(l.Pen.Width, 0.5, exact) && near(l.From.Y, l.To.Y, exact) && l.From.X > 25 {
			list = append(list, elevation{page, min(l.From.X, l.To.X) + 8, l.From.Y, den})
		}
	}
	slices.SortFunc(list, func(a, b elevation) int { return int(math.Copysign(1, a.x-b.x)) })
	return list
}

// box is where a box of the face is drawn.
func (e elevation) box(b unit.Box) pdftest.Box {
	at := func(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) / e.den }
	return pdftest.Box{Min: pdftest.Point{X: e.x + at(b.X0), Y: e.floor - at(b.Y1)}, Max: pdftest.Point{X: e.x + at(b.X1), Y: e.floor - at(b.Y0)}}
}

// drawn says whether a box is outlined there, dashed or not.
func (e elevation) drawn(b unit.Box, dashed bool) bool {
	want := e.box(b)
	return slices.ContainsFunc(e.page.Paths, func(p pdftest.Path) bool {
		if len(p.Points) < 4 || p.Pen == nil || (len(p.Pen.Dash) > 0) != dashed {
			return false
		}
		return near(p.Points[0].X, want.Min.X, 0.02) && near(p.Points[0].Y, want.Min.Y, 0.02) && near(p.Points[2].X, want.Max.X, 0.02) && near(p.Points[2].Y, want.Max.Y, 0.02)
	})
}

// markText is a mark on a drawing with the steps it names.
type markText struct {
	letter string
	steps  []int
	at     pdftest.Box
}

// marksOn reads the marks of a page: a letter, and steps one by one or from one
// to another.
func marksOn(page *pdftest.Page) (list []markText) {
	for _, text := range page.Texts {
		m := regexp.MustCompile(`^(?:[FRBL]-\d+-\d+ )?([KMAP])([0-9–…, ]*)$`).FindStringSubmatch(text.S)
		if m == nil {
			continue
		}
		mark := markText{letter: m[1], at: text.Ink}
		for _, part := range strings.Split(m[2], ", ") {
			ends := strings.FieldsFunc(part, func(r rune) bool { return r == '–' || r == '…' })
			if len(ends) == 0 {
				continue
			}
			first, _ := strconv.Atoi(ends[0])
			last, _ := strconv.Atoi(ends[len(ends)-1])
			for n := first; n <= last; n++ {
				mark.steps = append(mark.steps, n)
			}
		}
		for _, name := range page.Texts { // the row that stands before the mark
			if near(name.At.Y, text.At.Y, 0.5) && name.Ink.Max.X < mark.at.Min.X && mark.at.Min.X-name.Ink.Max.X < 3 {
				mark.at.Min.X = name.Ink.Min.X
			}
		}
		list = append(list, mark)
	}
	return list
}

// leads says whether a mark stands among boxes of one row or close by them, or a
// leader from it ends on one of them.
func (m markText) leads(page *pdftest.Page, to []pdftest.Box) bool {
	round := to[0]
	for _, b := range to {
		round.Min.X, round.Min.Y = min(round.Min.X, b.Min.X), min(round.Min.Y, b.Min.Y)
		round.Max.X, round.Max.Y = max(round.Max.X, b.Max.X), max(round.Max.Y, b.Max.Y)
	}
	if grow(m.at, 3.5).Overlaps(round) {
		return true
	}
	return slices.ContainsFunc(page.Lines, func(l pdftest.Line) bool {
		beside := near(l.From.Y, (m.at.Min.Y+m.at.Max.Y)/2, 1.5) && l.From.X < m.at.Min.X && m.at.Min.X-l.From.X < 5
		return beside && slices.ContainsFunc(to, func(b pdftest.Box) bool { return inside(l.To, grow(b, 0.3)) })
	})
}

func grow(b pdftest.Box, by float64) pdftest.Box {
	return pdftest.Box{Min: pdftest.Point{X: b.Min.X - by, Y: b.Min.Y - by}, Max: pdftest.Point{X: b.Max.X + by, Y: b.Max.Y + by}}
}

// boxed are the kinds of piece whose drawing has their whole box in it.
func boxed(p *unit.Piece) bool {
	switch p.Part.Kind {
	case "rail", "bar", "shoe", "faceout", "face-out":
		return false
	}
	return true
}

// drawings finds every piece at its place and to scale, those that go
// dashed, and by each a mark with its letter and step.
func (n *night) drawings(t *testing.T) {
	leaves, comes := map[*reset.Item]int{}, map[*reset.Item]int{}
	for _, step := range n.Steps {
		for _, act := range step.Acts {
			switch {
			case act.Item == nil:
			case step.Verb == reset.TakeDown || step.Verb == reset.SetAside:
				leaves[act.Item] = step.Number
			case step.Verb == reset.Hang:
				comes[act.Item] = step.Number
			default:
				leaves[act.Item], comes[act.Item] = step.Number, step.Number
			}
		}
	}
	looked := 0
	for _, f := range n.New.Faces {
		pages := n.pages(fmt.Sprintf(n.words.ChangeOf, n.faceName(f.ID)))
		if len(pages) == 0 {
			continue
		}
		e := elevations(pages[0])
		if len(e) != 1 {
			t.Fatalf("%s: %d elevations on the sheet", f.ID, len(e))
		}
		marks := marksOn(e[0].page)
		for _, item := range n.Items {
			for _, end := range []struct {
				place *reset.Place
				steps map[*reset.Item]int
				old   bool
			}{{item.From, leaves, true}, {item.To, comes, false}} {
				if end.place == nil || end.place.Face.ID != f.ID || item.Host != nil {
					continue
				}
				old := end.old
				if old && (item.Way == reset.Stay || item.To != nil && item.To.Solid == item.From.Solid) {
					continue
				}
				looked++
				p := end.place.Piece
				if (old || boxed(p)) && !e[0].drawn(p.Box, old) {
					t.Errorf("%s in %s is not drawn at its place, old %v", p.Part.ID, end.place.Row.Address, old)
				}
				if !n.marked(e[0], marks, end.place.Row, item, end.steps, old) {
					t.Errorf("%s in %s, old %v: no mark %s%d by it", p.Part.ID, end.place.Row.Address, old, item.Way.Mark(), end.steps[item])
				}
			}
		}
	}
	if looked == 0 {
		t.Error("nothing was looked at")
	}
}

// marked says whether a mark with the letter and the step stands by the pieces in
// the row to which the same happens in the steps it names.
func (n *night) marked(e elevation, marks []markText, row *unit.Row, item *reset.Item, steps map[*reset.Item]int, old bool) bool {
	return slices.ContainsFunc(marks, func(m markText) bool {
		if m.letter != string(item.Way.Mark()) || item.Way != reset.Stay && !slices.Contains(m.steps, steps[item]) {
			return false
		}
		var like []pdftest.Box
		for _, other := range n.Items {
			place := other.To
			if old {
				place = other.From
			}
			if place != nil && place.Row == row && other.Way.Mark() == item.Way.Mark() && (item.Way == reset.Stay || slices.Contains(m.steps, steps[other])) {
				like = append(like, e.box(place.Piece.Box))
			}
		}
		return m.leads(e.page, like)
	})
}

// goods finds every facing of a face that changes twice: where it is now
// and where it will be, and on the sheet a mark for each step.
func (n *night) goods(t *testing.T) {
	looked := 0
	for i, u := range []*unit.Unit{n.Old, n.New} {
		for _, f := range u.Faces {
			pages := n.pages(fmt.Sprintf(n.words.GoodsChangeOf, n.faceName(f.ID)))
			if len(pages) == 0 {
				continue
			}
			e := elevations(pages[0])
			if len(e) != 2 {
				t.Fatalf("%s: %d elevations of goods, want 2", f.ID, len(e))
			}
			for _, row := range f.Rows {
				for _, p := range row.Positions {
					for _, front := range p.Fronts {
						looked++
						if !e[i].drawn(front.Box, false) && !e[i].drawn(front.Box, true) {
							t.Errorf("%s: a facing is not drawn at its place", p.Address)
						}
					}
				}
			}
		}
	}
	if looked == 0 {
		t.Error("nothing was looked at")
	}
	for _, step := range n.Steps {
		for _, act := range step.Acts {
			if act.Facing == nil || act.Verb != reset.PutOn && act.Verb != reset.TakeOff {
				continue
			}
			spot := act.Facing.To
			if act.Verb == reset.TakeOff {
				spot = act.Facing.From
			}
			marks := marksOn(n.pages(fmt.Sprintf(n.words.GoodsChangeOf, n.faceName(spot.Face.ID)))[0])
			if !slices.ContainsFunc(marks, func(m markText) bool {
				return m.letter == string(act.Facing.Way.Mark()) && slices.Contains(m.steps, step.Number)
			}) {
				t.Errorf("%s: no mark %s%d", spot.Position.Address, act.Facing.Way.Mark(), step.Number)
			}
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
