package draw

import (
	"fmt"
	"math"
	"strings"

	"setwright/layout/check"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// Statics draws the statics sheets: the shelf that sags most, the unit on its
// feet and what it takes to tip it, then every load in tables, and what all
// of it rests on. Without an assessment there are none.
func (j *Job) Statics() []*Page {
	a := j.Report.Assessment
	if a == nil {
		return nil
	}
	s := &section{job: j, name: "statics", title: j.Words.Statics, under: j.Words.StaticsUnder}
	f := s.flowFresh()
	if c := worstShelf(a); c != nil {
		f.shelf(c)
	}
	f.stand(a)
	for _, t := range []struct {
		head  string
		table table
	}{
		{j.Words.Tipping, j.tipTable(a)}, {j.Words.ShelfLoads, j.shelfTable(a)}, {j.Words.HoldLoads, j.holdTable(a)}, {j.Words.PanelLoads, j.panelTable(a)},
	} {
		if len(t.table.records) > 0 {
			f.skip(3 * mm)
			f.headed(t.head, letter(plain).strong(), 14*mm)
			f.table(t.table)
		}
	}
	f.heavier(a)
	f.skip(3 * mm)
	f.headed(j.Words.Basis, letter(plain).strong(), 10*mm)
	basis, height := j.basis(a), letter(plain)
	if width := wide(f.area) - bulletIndent; itemsHeight(basis, width) > f.left() && itemsHeightIn(letter(fine), basis, width) <= f.left() {
		height = letter(fine)
	}
	for _, text := range basis {
		f.item("•", text, height, bulletIndent)
	}
	return s.pages
}

// heavierBy is by how many per cent the assessment makes goods heavier to see
// what else would be found.
const heavierBy = "25"

// heavier says what would be found besides if all goods were heavier.
func (f *flow) heavier(a *check.Assessment) {
	j := f.section.job
	f.skip(3 * mm)
	if len(a.Heavier) == 0 {
		f.headed(fmt.Sprintf(j.Words.HeavierNothing, heavierBy), letter(plain).strong(), 0)
		return
	}
	f.headed(fmt.Sprintf(j.Words.Heavier, heavierBy), letter(plain).strong(), 10*mm)
	for _, n := range a.Heavier {
		text := j.levelName(n.Level) + ": " + sentence(n.Message)
		if len(n.Where) > 0 {
			text += " (" + addresses(n.Where) + ")"
		}
		f.item("•", text, letter(plain), bulletIndent)
	}
}

// shelf sets the diagram of a shelf and says in words what it shows.
func (f *flow) shelf(c *check.ShelfCase) {
	j := f.section.job
	f.headed(fmt.Sprintf(j.Words.WorstShelf, j.shelfName(c.Row)), letter(plain).strong(), sagHeight)
	f.y = f.page.sagDiagram(c, sheet.Rect{Min: pt(f.area.Min.X, f.y), Max: f.area.Max})
	f.text(j.sagSays(c), letter(plain), 0)
	f.skip(3 * mm)
}

// stand sets the plan view on its feet with their loads beside it, and under
// it what each face carries.
func (f *flow) stand(a *check.Assessment) {
	j := f.section.job
	const gap = 6 * mm
	left, right := f.area, f.area
	left.Max.X = f.area.Min.X + wide(f.area)*48/100
	right.Min.X = left.Max.X + gap
	tables := j.feetTable(a).heightIn(wide(right)) + 4*mm
	f.headed(j.Words.Standing, letter(plain).strong(), max(70*mm, tables))
	top := f.y
	left.Min.Y, right.Min.Y = top, top
	left.Max.Y = min(left.Max.Y, top+max(70*mm, tables))
	under := f.page.standDiagram(a, left)
	side := &flow{section: f.section, page: f.page, area: right, y: top}
	if len(a.Feet) > 0 {
		side.table(j.feetTable(a))
	}
	if len(a.Tips) == 0 {
		side.skip(2 * mm)
		side.text(j.Words.FixedSays, letter(plain), 0)
	}
	f.y = max(under, side.y)
	f.skip(2 * mm)
	f.table(j.massTable(a))
	if text := j.balanceText(a); text != "" {
		f.skip(1 * mm)
		f.text(text, letter(plain), 0)
	}
}

// massTable lists what each face carries, and all of it.
func (j *Job) massTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, space: tightSpace, columns: []column{{head: w.FaceHead, flex: 1}, {head: w.HardwareHead, end: true}, {head: w.GoodsHead, end: true}, {head: w.TogetherHead, end: true}, {head: w.UpHead, end: true}, {head: w.OutHead, end: true}}}
	for _, c := range a.Faces {
		t.records = append(t.records, record{cells: []string{
			j.faceName(c.Face), j.kilos(c.Hardware), j.kilos(c.Goods), j.kilos(c.Full.Mass), j.distance(c.Full.Z), j.distance(outward(c)),
		}})
	}
	t.records = append(t.records, record{bold: true, cells: []string{w.WholeUnit, "", "", j.kilos(a.Full.Mass), j.distance(a.Full.Z), ""}})
	return t
}

// outward is how far the centre of a face's load lies out from the middle of
// the unit.
func outward(c check.FaceCase) float64 {
	if c.Face == plan.Front || c.Face == plan.Back {
		return math.Abs(c.Full.Y)
	}
	return math.Abs(c.Full.X)
}

// balanceText says by how much one side of a unit with two long sides
// outweighs the other.
func (j *Job) balanceText(a *check.Assessment) string {
	mass := map[plan.FaceID]float64{}
	for _, c := range a.Faces {
		mass[c.Face] = c.Hardware + c.Goods
	}
	form := j.Unit.Frame.Frame.Form
	front, back := mass[plan.Front], mass[plan.Back]
	if form != parts.HForm && form != parts.BoxForm || front == 0 && back == 0 || !j.hasFace(plan.Front) || !j.hasFace(plan.Back) {
		return ""
	}
	return fmt.Sprintf(j.Words.BalanceSays, j.kilos(math.Abs(front-back)), j.decimal(100*math.Abs(front-back)/max(front, back), 0))
}

func (j *Job) hasFace(id plan.FaceID) bool { return j.Unit.Face(id) != nil }

// feetTable lists the load on every foot.
func (j *Job) feetTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, columns: []column{{head: w.FootHead, end: true}, {head: w.LoadHead, end: true, flex: 1}, {head: w.OneOffHead, end: true, flex: 1}, {head: w.RatedHead, end: true, flex: 1}, {head: w.ShareHead, end: true, flex: 1}}}
	for i, c := range a.Feet {
		oneOff, judged := j.force(c.OneOff), c.OneOff
		if j.Unit.Stand.Stand.Form != "casters" { // levellers are screwed down to the floor
			oneOff, judged = dash, c.Load
		}
		t.records = append(t.records, record{cells: []string{itoa(i + 1), j.force(c.Load), oneOff, j.rating(c.Rated, c.Assumed), j.share(judged, c.Rated)}})
	}
	return t
}

// tipTable lists the tipping cases; the one that takes least force is bold.
func (j *Job) tipTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, space: tightSpace, columns: []column{{head: w.StateHead, flex: 2}, {head: w.EdgeHead, flex: 1}, {head: w.MassHead, end: true}, {head: w.CentreHead, end: true},
		{head: w.ArmHead, end: true}, {head: w.ForceTopHead, end: true}, {head: fmt.Sprintf(w.ForceAtHead, j.distance(1400)), end: true}, {head: w.TiltHead, end: true}}}
	edges := j.tipEdges(a)
	least := leastForce(a)
	low := max(j.Unit.Bare.Z1, j.Unit.Extent.Z1) < 1400*mm
	for i, c := range a.Tips {
		at1400 := j.force(c.Force1400)
		if low {
			at1400 = dash
		}
		t.records = append(t.records, record{bold: i == least, cells: []string{j.stateName(c.State), edges[j.edgeOf(edges, c)].name, j.kilos(c.Body.Mass), j.distance(c.Body.Z),
			j.distance(c.Arm), j.force(c.ForceTop), at1400, j.decimal(c.Tilt, 1) + "°"}})
	}
	return t
}

// leastForce is the tipping case that takes the least force at the top.
func leastForce(a *check.Assessment) int {
	least := 0
	for i, c := range a.Tips {
		if c.ForceTop < a.Tips[least].ForceTop {
			least = i
		}
	}
	return least
}

// stateName is a state of the unit in the sheets' language.
func (j *Job) stateName(state string) string {
	w := j.Words
	switch state {
	case "full":
		return w.StateFull
	case "bare":
		return w.StateBare
	case "front first":
		return w.StateFront
	case "back first":
		return w.StateBack
	case "right first":
		return w.StateRight
	case "left first":
		return w.StateLeft
	case "low shelves empty":
		return w.StateLow
	}
	return state
}

// shelfTable lists for each row of shelves the one that sags most.
func (j *Job) shelfTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, space: tightSpace, columns: []column{{head: w.RowHead}, {head: w.Part, flex: 2}, {head: w.SupportsHead, end: true}, {head: w.LoadHead, end: true},
		{head: w.SagHead, end: true}, {head: w.SpanHead, end: true}, {head: w.RatioHead, end: true}, {head: w.OthersHead, flex: 2}, {head: w.StiffHead, end: true}}}
	seen := map[*unit.Row]bool{}
	for i := range a.Shelves {
		r := a.Shelves[i].Row
		if seen[r] {
			continue
		}
		seen[r] = true
		c := worstOf(a.Shelves, r)
		var others []string
		for _, o := range c.Others {
			others = append(others, fmt.Sprintf("%d: %s", o.Supports, j.bend(o.Sag)))
		}
		t.records = append(t.records, record{cells: []string{r.Address, j.partName(c.Piece.Part, c.Piece.Cut), itoa(len(c.Supports)), j.force(c.Load), j.bend(c.Sag), j.distance(c.Span), j.ratio(c.Span, c.Sag),
			strings.Join(others, "; "), j.stiffText(c.Piece.Part)}})
	}
	return t
}

func worstOf(shelves []check.ShelfCase, r *unit.Row) *check.ShelfCase {
	var worst *check.ShelfCase
	for i := range shelves {
		if c := &shelves[i]; c.Row == r && (worst == nil || c.Sag*worst.Span > worst.Sag*c.Span) {
			worst = c
		}
	}
	return worst
}

// stiffText is the bending stiffness a part is reckoned with.
func (j *Job) stiffText(p *parts.Part) string {
	if p.Bend == nil {
		return dash
	}
	return j.rigidity(p.Bend.Rigidity(p.Depth))
}

// holdTable lists, for each kind of part of each row, the one that carries
// most.
func (j *Job) holdTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, space: tightSpace, columns: []column{{head: w.RowHead}, {head: w.Part, flex: 3}, {head: w.PiecesHead, end: true}, {head: w.MostHead, end: true}, {head: w.RatedHead, end: true}, {head: w.ShareHead, end: true},
		{head: w.MomentHead, end: true}, {head: w.TipHead, end: true}}}
	for _, g := range holdGroups(a) {
		tip := dash
		if g.tip > 0 {
			tip = j.bend(g.tip)
		}
		t.records = append(t.records, record{cells: []string{g.row.Address, j.partName(g.part, 0), itoa(g.pieces), j.force(g.load), j.rating(g.rated, g.assumed), j.share(g.load, g.rated), j.moment(g.moment), tip}})
	}
	return t
}

// holdGroup is the pieces of one kind in a row, and the most on any of them.
type holdGroup struct {
	row         *unit.Row
	part        *parts.Part
	pieces      int
	load, rated float64
	assumed     bool
	moment, tip float64
}

func holdGroups(a *check.Assessment) []*holdGroup {
	var list []*holdGroup
	type key struct {
		row  *unit.Row
		part *parts.Part
	}
	at := map[key]*holdGroup{}
	for _, c := range a.Holds {
		k := key{c.Row, c.Piece.Part}
		g := at[k]
		if g == nil {
			g = &holdGroup{row: c.Row, part: c.Piece.Part, rated: c.Rated, assumed: c.Assumed}
			at[k] = g
			list = append(list, g)
		}
		g.pieces++
		g.load, g.moment, g.tip = max(g.load, c.Load), max(g.moment, c.Moment), max(g.tip, c.Tip)
	}
	return list
}

// panelTable lists the load on every panel.
func (j *Job) panelTable(a *check.Assessment) table {
	w := j.Words
	t := table{height: fine, space: tightSpace, columns: []column{{head: w.FaceHead, flex: 1}, {head: w.BayHead, end: true}, {head: w.LoadHead, end: true}, {head: w.RatedHead, end: true}, {head: w.ShareHead, end: true}, {head: w.GripHead, end: true}}}
	for _, c := range a.Panels {
		t.records = append(t.records, record{cells: []string{j.faceName(c.Face), itoa(c.Bay), j.force(c.Load), j.rating(c.Rated, j.panelAssumed(c.Face)), j.share(c.Load, c.Rated), j.force(c.PerGrip)}})
	}
	return t
}

func (j *Job) panelAssumed(id plan.FaceID) bool {
	f := j.Unit.Face(id)
	return f != nil && f.Panel.Assumed
}

// basis says what the figures rest on.
func (j *Job) basis(a *check.Assessment) []string {
	w := j.Words
	list := []string{w.BasisLoads}
	if len(a.Shelves) > 0 {
		list = append(append(list, w.BasisSag), j.materials(a)...)
	}
	list = append(list, w.BasisHolds)
	if len(a.Feet) > 0 {
		list = append(list, w.BasisFeet)
	}
	if len(a.Tips) > 0 {
		list = append(list, w.BasisTip)
	}
	return append(list, w.BasisNoTest, w.BasisRatings)
}

// materials says how each kind of shelf is reckoned, once each.
func (j *Job) materials(a *check.Assessment) []string {
	var list []string
	seen := map[*parts.Part]bool{}
	for _, c := range a.Shelves {
		p := c.Piece.Part
		if seen[p] || p.Bend == nil {
			continue
		}
		seen[p] = true
		if m := p.Bend.Material; m != nil && p.Bend.EI == 0 {
			list = append(list, fmt.Sprintf(j.Words.BasisBoard, j.partName(p, 0), m.Name, j.stress(m.E), j.length(p.Bend.Thick), j.length(p.Depth), j.decimal(m.LongTerm, 1), m.Source))
			continue
		}
		list = append(list, fmt.Sprintf(j.Words.BasisGiven, j.partName(p, 0), j.rigidity(p.Bend.Rigidity(p.Depth)), j.decimal(p.Bend.LongTerm(), 1)))
	}
	return list
}
