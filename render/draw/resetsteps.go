package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// Steps draws the step list: what to do, one thing after the other, with boxes
// to tick, and the sums by face.
func (j *ResetJob) Steps() []*Page {
	if len(j.reset.Steps) == 0 {
		return nil
	}
	w := j.Words
	s := &section{job: j.Job, name: "steps", title: w.StepList, under: w.StepListUnder}
	f := s.flowFresh()
	f.table(j.stepTable())
	f.skip(2 * mm)
	f.text(w.ResetTimes, letter(plain), 0)
	f.skip(4 * mm)
	f.heading(w.SumsByFace, 20*mm)
	f.table(j.sumTable())
	return s.pages
}

// stepTable lists the steps under the face they are at; a caution stands framed
// under its step.
func (j *ResetJob) stepTable() table {
	w := j.Words
	t := table{columns: []column{
		{tick: true}, {head: w.StepHead, end: true}, {head: w.MarkHead}, {head: w.DoHead, flex: 1}, {head: w.TimeHead, end: true}, {head: w.PeopleHead, end: true},
	}}
	if j.reset.Together > 0 {
		t.columns = append(t.columns, column{head: w.WhoHead}, column{head: stacked(w.AfterHead), end: true})
	}
	face, bare := plan.FaceID(""), j.bareChange()
	for i := range j.reset.Steps {
		step := &j.reset.Steps[i]
		if i == bare {
			t.records = append(t.records, record{framed: w.ChangeBare})
		}
		if i == 0 || i == bare || step.Face != face {
			face = step.Face
			t.records = append(t.records, record{group: j.placeName(face)})
		}
		cells := []string{"", strconv.Itoa(step.Number), marksOf(step), strings.Join(j.says(step), "\n"), clock(step.Seconds), strconv.Itoa(max(step.People, 1))}
		if j.reset.Together > 0 {
			cells = append(cells, j.person(step.Person), "")
			if step.Wait > 0 {
				cells[len(cells)-1] = strconv.Itoa(step.Wait)
			}
		}
		t.records = append(t.records, record{cells: cells})
		if step.Caution != "" && (i == 0 || j.reset.Steps[i-1].Caution != step.Caution) {
			t.records = append(t.records, record{framed: j.caution(i)})
		}
	}
	return t
}

// bareChange is the step with which the change of the bare unit begins, -1 if it
// is not changed.
func (j *ResetJob) bareChange() int {
	return slices.IndexFunc(j.reset.Steps, func(s reset.Step) bool { return ofBare(&s) })
}

// ofBare says whether a step is about the bare unit, whose parts are in no row.
func ofBare(step *reset.Step) bool {
	item := step.Acts[0].Item
	return item != nil && (item.From == nil || item.From.Row == nil) && (item.To == nil || item.To.Row == nil)
}

// changesBare puts a step at the bare unit in words: panels with their faces.
func (j *ResetJob) changesBare(step *reset.Step) []string {
	w, where := j.Words, before
	format := w.BareDown
	switch items := itemsOf(step); {
	case step.Verb == reset.SetAside:
		format = w.BareAside
	case step.Verb == reset.Hang && items[0].From != nil:
		format, where = w.BareAgain, after
	case step.Verb == reset.Hang:
		format, where = w.BareUp, after
	}
	var texts []string
	for _, g := range byKind(itemsOf(step)) {
		text := fmt.Sprintf("%d\u00a0×\u00a0%s", len(g), j.partName(g[0].Part, 0))
		if g[0].Part.Kind == parts.Panel {
			var faces []string
			for _, item := range g {
				if name := j.faceName(placeOf(item, where).Face.ID); !slices.Contains(faces, name) {
					faces = append(faces, name)
				}
			}
			text += " (" + strings.Join(faces, ", ") + ")"
		}
		texts = append(texts, text)
	}
	return []string{fmt.Sprintf(format, strings.Join(texts, "; "))}
}

// person is who does a step.
func (j *ResetJob) person(n int) string {
	switch n {
	case 1:
		return "A"
	case 2:
		return "B"
	}
	return j.Words.BothPeople
}

// caution is what a crew is told where steps begin that leave the unit less
// safe, of the one at i and those that follow it.
func (j *ResetJob) caution(i int) string {
	w, steps, last := j.Words, j.reset.Steps, i
	for last+1 < len(steps) && steps[last+1].Caution == steps[i].Caution {
		last++
	}
	text := w.TipAfter
	if steps[i].Caution == "balance" {
		text = w.BalanceAfter
	}
	if last == i {
		return fmt.Sprintf(w.AfterStep, steps[i].Number) + " " + text
	}
	return fmt.Sprintf(w.AfterSteps, steps[i].Number, steps[last].Number) + " " + text
}

// marksOf are the marks of what a step touches, each once.
func marksOf(step *reset.Step) string {
	var list []string
	for _, a := range step.Acts {
		m := string(reset.Move)
		if a.Item != nil {
			m = string(a.Item.Way.Mark())
		} else if a.Facing != nil {
			m = string(a.Facing.Way.Mark())
		}
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return strings.Join(list, " ")
}

// sumTable adds the steps up by face.
func (j *ResetJob) sumTable() table {
	w := j.Words
	t := table{columns: []column{{head: w.FaceHead, flex: 1}, {head: w.StepCount, end: true}, {head: w.TimeHead, end: true}}}
	steps, seconds := map[plan.FaceID]int{}, map[plan.FaceID]int{}
	var faces []plan.FaceID
	all := 0
	for i := range j.reset.Steps {
		step := &j.reset.Steps[i]
		if steps[step.Face] == 0 {
			faces = append(faces, step.Face)
		}
		steps[step.Face]++
		seconds[step.Face] += step.Seconds
		all += step.Seconds
	}
	for _, id := range faces {
		t.records = append(t.records, record{cells: []string{j.placeName(id), strconv.Itoa(steps[id]), clock(seconds[id])}})
	}
	t.records = append(t.records, record{bold: true, cells: []string{w.TogetherHead, strconv.Itoa(len(j.reset.Steps)), clock(all)}})
	return t
}

// says puts a step in words: a sentence for what comes from or goes to each
// side, then where along the face new places are.
func (j *ResetJob) says(step *reset.Step) []string {
	w := j.Words
	switch step.Verb {
	case reset.TakeOff:
		return j.takesOff(step)
	case reset.PutOn:
		return j.putsOn(step)
	case reset.Nudge:
		return []string{fmt.Sprintf(w.DoNudge, j.stepRow(step, after), j.nudged(step))}
	}
	if ofBare(step) {
		return j.changesBare(step)
	}
	items := itemsOf(step)
	if step.Verb == reset.Hang {
		return append(j.hangs(items), j.along(items))
	}
	from, counts := j.rowAt(before, items[0].From), j.counts(items, before)
	switch step.Verb {
	case reset.TakeDown:
		return []string{fmt.Sprintf(w.DoDown, from, counts)}
	case reset.SetAside:
		return []string{fmt.Sprintf(w.DoAside, from, counts)}
	case reset.Slip:
		return []string{fmt.Sprintf(w.DoSlip, from, j.rowAt(after, items[0].To), counts), j.along(items)}
	}
	return []string{fmt.Sprintf(w.DoShift, from, j.rowAt(after, items[0].To), counts), j.along(items)}
}

// hangs says what is hung, from stock and from beside the unit.
func (j *ResetJob) hangs(items []*reset.Item) []string {
	var lines []string
	for _, aside := range []bool{false, true} {
		format := j.Words.DoHang
		if aside {
			format = j.Words.DoHangAside
		}
		some := slices.DeleteFunc(slices.Clone(items), func(i *reset.Item) bool { return (i.From != nil) != aside })
		if len(some) > 0 {
			lines = append(lines, fmt.Sprintf(format, j.rowAt(after, some[0].To), j.counts(some, after)))
		}
	}
	return lines
}

func itemsOf(step *reset.Step) []*reset.Item {
	var list []*reset.Item
	for _, a := range step.Acts {
		if a.Item != nil {
			list = append(list, a.Item)
		}
	}
	return list
}

// stepRow names the row a step's goods are on.
func (j *ResetJob) stepRow(step *reset.Step, w when) string {
	for _, a := range step.Acts {
		if a.Facing != nil {
			if spot := spotOf(a.Facing, w); spot != nil {
				return j.rowName(w, spot.Row)
			}
		}
	}
	return ""
}

// placeOf is where a piece is in one of the units, nil if it is not.
func placeOf(i *reset.Item, w when) *reset.Place {
	if w == before {
		return i.From
	}
	return i.To
}

func spotOf(f *reset.Facing, w when) *reset.Spot {
	if w == before {
		return f.From
	}
	return f.To
}

// rowAt names a row, the slot a piece hangs in there, and its height.
func (j *ResetJob) rowAt(w when, p *reset.Place) string {
	own := j.job(w)
	return fmt.Sprintf(j.Words.RowAt, j.rowName(w, p.Row), own.slotName(p.Face, p.Piece.Slot), j.length(p.Face.SlotHeight(p.Piece.Slot)))
}

// byKind sorts pieces by part and cut, the kinds in the order they come in.
func byKind(items []*reset.Item) [][]*reset.Item {
	type kind struct {
		part *parts.Part
		cut  measure.Length
	}
	at := map[kind]int{}
	var list [][]*reset.Item
	for _, item := range items {
		k := kind{item.Part, item.Cut}
		n, ok := at[k]
		if !ok {
			n = len(list)
			at[k], list = n, append(list, nil)
		}
		list[n] = append(list[n], item)
	}
	return list
}

// counts says how many of which parts, and where they hang now if others like
// them stay in their row: 2 × Peg hook 6 (now at 8½ · 13).
func (j *ResetJob) counts(items []*reset.Item, w when) string {
	var texts []string
	for _, g := range byKind(items) {
		text := fmt.Sprintf("%d\u00a0×\u00a0%s", len(g), j.partName(g[0].Part, g[0].Cut))
		if place := placeOf(g[0], before); w == before && place != nil && alike(place) > len(g) {
			text += " (" + fmt.Sprintf(j.Words.NowAt, j.spots(piecesOf(g, before))) + ")"
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// alike counts the pieces in a row that are like the one at a place, it among them.
func alike(p *reset.Place) int {
	n := 0
	for _, o := range p.Row.All() {
		if o.Part == p.Piece.Part && o.Cut == p.Piece.Cut {
			n++
		}
	}
	return n
}

// piecesOf are the pieces of items in one of the units, from the left.
func piecesOf(items []*reset.Item, w when) []*unit.Piece {
	pieces := make([]*unit.Piece, len(items))
	for i, item := range items {
		pieces[i] = placeOf(item, w).Piece
	}
	slices.SortStableFunc(pieces, func(a, b *unit.Piece) int { return cmp.Compare(a.X, b.X) })
	return pieces
}

// along says where along the face the pieces of a step go, kind by kind.
func (j *ResetJob) along(items []*reset.Item) string {
	var lines []string
	groups := byKind(items)
	for _, g := range groups {
		spots := j.spots(piecesOf(g, after))
		if len(groups) > 1 {
			spots = j.partName(g[0].Part, g[0].Cut) + " (" + spots + ")"
		}
		lines = append(lines, spots)
	}
	return fmt.Sprintf(j.Words.PlacesAlong, j.unitName(), strings.Join(lines, "; "))
}

// takesOff says which goods leave a row: what all goes back to stock, what goes
// onto the cart, and what facings that stay give up.
func (j *ResetJob) takesOff(step *reset.Step) []string {
	w := j.Words
	return j.carries(step, before, [3]string{w.DoBack, w.DoCart, w.DoThin})
}

// putsOn says the same of goods that come to a row.
func (j *ResetJob) putsOn(step *reset.Step) []string {
	w := j.Words
	return j.carries(step, after, [3]string{w.DoFillStock, w.DoFill, w.DoTopUp})
}

// load is what one act carries of a facing: whole or some of its units, and how
// many of them go to stock or come from there, the others by way of the cart.
type load struct {
	facing       *reset.Facing
	whole        bool
	units, stock int
}

func loadOf(f *reset.Facing, w when) load {
	l := load{facing: f, whole: f.Way == reset.Rehang || f.Way == reset.Fetch || f.Way == reset.Return, units: f.More(), stock: f.Stock}
	if w == before {
		l.units, l.stock = -l.units, -l.stock
	}
	if l.whole {
		l.units = spotOf(f, w).Front.Units
	}
	l.stock = min(max(l.stock, 0), l.units)
	return l
}

// carries puts a step with goods in words, a sentence for each of: all units
// between row and stock, by way of the cart, some units only.
func (j *ResetJob) carries(step *reset.Step, w when, formats [3]string) []string {
	var kinds [3][]load
	for _, a := range step.Acts {
		if a.Facing == nil {
			continue
		}
		l, kind := loadOf(a.Facing, w), 2
		if l.whole {
			if kind = 1; l.stock == l.units {
				kind = 0
			}
		}
		kinds[kind] = append(kinds[kind], l)
	}
	var lines []string
	for kind, loads := range kinds {
		if loads != nil {
			lines = append(lines, fmt.Sprintf(formats[kind], j.stepRow(step, w), j.lots(w, loads)))
		}
	}
	return lines
}

// lots says what goods: position, product, facings and units, those of one
// position together.
func (j *ResetJob) lots(w when, loads []load) string {
	var texts []string
	for i := 0; i < len(loads); {
		spot := spotOf(loads[i].facing, w)
		n, sum := 0, load{whole: loads[i].whole}
		for ; i < len(loads) && spotOf(loads[i].facing, w).Position == spot.Position; i++ {
			n++
			sum.units += loads[i].units
			sum.stock += loads[i].stock
		}
		texts = append(texts, fmt.Sprintf("%s %s, %s", spot.Position.Address, spot.Position.Product.Name, j.amount(w, n, sum)))
	}
	return strings.Join(texts, "; ")
}

// amount says how much a load is: 2 facings (12 units, 4 of them to stock).
func (j *ResetJob) amount(w when, facings int, l load) string {
	text := counted(l.units, j.Words.UnitOne, j.Words.UnitMany)
	stock, cart := j.Words.ToStock, j.Words.ToCart
	if w == after {
		stock, cart = j.Words.FromStock, j.Words.FromCart
	}
	if l.stock > 0 && (l.stock < l.units || !l.whole) {
		text += ", " + fmt.Sprintf(stock, l.stock)
	}
	if l.stock < l.units && (l.stock > 0 || !l.whole) {
		text += ", " + fmt.Sprintf(cart, l.units-l.stock)
	}
	if !l.whole {
		return text
	}
	return counted(facings, j.Words.FacingOne, j.Words.FacingMany) + " (" + text + ")"
}

// nudged says where goods go that are moved along what carries them.
func (j *ResetJob) nudged(step *reset.Step) string {
	var texts []string
	for _, a := range step.Acts {
		if f := a.Facing; f != nil && f.To != nil {
			texts = append(texts, fmt.Sprintf("%s %s, %s", f.To.Position.Address, f.Product.Name, fmt.Sprintf(j.Words.LeftEdgeAt, j.figure(f.To.Front.Box.X0))))
		}
	}
	return strings.Join(texts, "; ")
}

// counted is a number of things in words.
func counted(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf(many, n)
}
