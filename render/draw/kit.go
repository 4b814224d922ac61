package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/render/words"
)

// KitJob is what the sheets of a kit are drawn from: a Job in the manner of its
// first season, and the kit.
type KitJob struct {
	*Job
	kit   *kit.Kit
	found []diag.Finding // about the plans together
}

// KitPlan is the plan that the sheets of a kit name in their title blocks: the
// first season's but for the title and the season, and without a revision.
func KitPlan(k *kit.Kit) *plan.Plan {
	first := k.Seasons[0]
	p := *first.Unit.Plan
	p.Title = fmt.Sprintf(words.In(p.Language).KitTitle, first.Unit.Frame.Name)
	p.Season = first.Name
	if last := k.Seasons[len(k.Seasons)-1]; last.Name != first.Name {
		p.Season += " – " + last.Name
	}
	p.Revision, p.Date, p.Currency = "", "", k.Currency()
	return &p
}

// NewKitJob gathers what the sheets of a kit need. Findings of all plans are in
// one list, those about the plans together in the other.
func NewKitJob(k *kit.Kit, all, together []diag.Finding) *KitJob {
	u := *k.Seasons[0].Unit
	u.Plan = KitPlan(k)
	return &KitJob{NewJob(&u, stops(all), check.Report{}), k, graded(together)}
}

// stops are the findings that mark sheets "not for construction".
func stops(all []diag.Finding) []diag.Finding {
	var list []diag.Finding
	for _, f := range all {
		if f.Level >= diag.Stop {
			list = append(list, f)
		}
	}
	return list
}

// Summary draws the first sheet of a kit: its seasons and their cost, the kit
// in figures, what to know.
func (j *KitJob) Summary() []*Page {
	w := j.Words
	s := &section{job: j.Job, name: "kit", title: w.Kit, under: w.KitUnder}
	f := s.flowFresh()
	f.table(j.seasonTable())
	f.skip(6 * mm)
	f.heading(w.KitFigures, 20*mm)
	r := f.area
	r.Max.X = min(r.Max.X, r.Min.X+110*mm)
	for _, row := range j.figures() {
		f.room(2 * letter(plain).pitch())
		r.Min.Y = f.y
		f.y = f.page.pair(r, f.y, row[0], row[1])
	}
	if j.kit.Priced() {
		f.skip(5 * mm)
		j.costs(f)
	}
	f.skip(4 * mm)
	f.text(w.KitExact, letter(plain), 0)
	f.know(j.found)
	return s.pages
}

// know sets what was found about several plans together.
func (f *flow) know(found []diag.Finding) {
	if len(found) == 0 {
		return
	}
	j := f.section.job
	f.skip(4 * mm)
	f.heading(j.Words.KitKnow, 12*mm)
	for _, find := range found {
		f.item("•", j.levelName(find.Level)+": "+sentence(find.Message), letter(plain), bulletIndent)
	}
}

// seasonTable lists the seasons and their sums.
func (j *KitJob) seasonTable() table {
	w := j.Words
	t := table{columns: []column{
		{head: w.NumberHead, end: true}, {head: w.Season, flex: 3}, {head: w.PlanTitle, flex: 3}, {head: w.PlanMark},
		{head: stacked(w.UsedHead), end: true}, {head: stacked(w.ComeHead), end: true}, {head: stacked(w.IdleHead), end: true},
	}}
	if j.kit.Priced() {
		t.columns = append(t.columns, column{head: stacked(w.CostHead), end: true})
	}
	for i, season := range j.kit.Seasons {
		f := j.kit.Figures(i)
		cells := []string{strconv.Itoa(i + 1), season.Name, season.Unit.Plan.Title, season.Mark, strconv.Itoa(f.Used), strconv.Itoa(f.Come), strconv.Itoa(f.Idle)}
		if j.kit.Priced() {
			cells = append(cells, j.marked(j.kit.Changes[i].Purchase.Total, j.kit.Changes[i].Purchase.Unpriced))
		}
		t.records = append(t.records, record{cells: cells})
	}
	return t
}

// figures are the kit's own: name and value.
func (j *KitJob) figures() [][2]string {
	w, k := j.Words, j.kit
	most, sum, hand, come := 0, 0, 0, 0
	for i := range k.Lines {
		l := &k.Lines[i]
		last := len(k.Seasons) - 1
		most, sum, hand = most+l.Most(), sum+l.Sum(), hand+l.OnHand
		come += l.Owned(last) - l.OnHand
	}
	rows := [][2]string{{w.KindsOwned, strconv.Itoa(len(k.Lines))}, {w.PiecesOwned, strconv.Itoa(most)}, {w.PiecesSum, strconv.Itoa(sum)},
		{w.OnHandAll, strconv.Itoa(hand)}, {w.ComeAll, strconv.Itoa(come)}}
	if !k.Priced() {
		return rows
	}
	n := k.AtOnce.Unpriced
	rows = append(rows, [2]string{w.CostAll, j.marked(k.Total(), n)}, [2]string{w.CostAtOnce, j.marked(k.AtOnce.Total, n)}, [2]string{w.KitWorth, j.marked(k.AtOnce.Worth, k.AtOnce.Wants)})
	if n > 0 {
		rows = append(rows, [2]string{"* " + w.WithoutPrice, strconv.Itoa(n)})
	}
	return rows
}

// costs draws the cost before each season as a bar, all to one scale.
func (j *KitJob) costs(f *flow) {
	const height, pitch = 4 * mm, 6500 * micron
	f.heading(j.Words.CostBySeason, pitch)
	s := letter(plain)
	most, left, right := measure.Money(1), measure.Length(0), measure.Length(0)
	for i, season := range j.kit.Seasons {
		cost := j.kit.Changes[i].Purchase.Total
		most = max(most, cost)
		left = max(left, min(70*mm, s.width(numbered(i, season))))
		right = max(right, s.width(j.sum(cost)))
	}
	room := wide(f.area) - left - right - 6*mm
	for i, season := range j.kit.Seasons {
		f.room(pitch)
		cost, y := j.kit.Changes[i].Purchase.Total, f.y+pitch/2
		f.page.writeMid(f.area.Min.X, y, wrapTo(numbered(i, season), s, left, 1)[0], s)
		r := box(f.area.Min.X+left+3*mm, y-height/2, f.area.Min.X+left+3*mm+share(room, int64(cost), int64(most)), y+height/2)
		f.page.solidBox(r, pen(medium), grey(205))
		f.page.writeMid(r.Max.X+2*mm, y, j.sum(cost), s)
		f.y += pitch
	}
}

// share is part of a length: part out of whole, rounded down to a micrometre.
func share(of measure.Length, part, whole int64) measure.Length {
	// In micrometres of paper the product of a length and a sum stays inside an
	// int64 up to sums of ten thousand million.
	for whole > 1<<40 {
		part, whole = part>>10, whole>>10
	}
	return measure.Length(int64(of/micron)*part/whole) * micron
}

// Changes draws what to do before each season: what the orders come to, each
// order on sheets of its own, to be sent off, and what to saw.
func (j *KitJob) Changes() []*Page {
	var pages []*Page
	for i := range j.kit.Changes {
		c := &j.kit.Changes[i]
		own := *j.Job
		u := *own.Unit
		p := *u.Plan
		title := fmt.Sprintf(j.Words.OrdersBefore, j.kit.Seasons[i].Name)
		p.Title += ". " + title
		u.Plan, own.Unit, own.Purchase = &p, &u, c.Purchase
		name := fmt.Sprintf("season-%d-", i+1)
		pages = append(pages, own.ordersOf(name, title)...)
		pages = append(pages, own.cutsOf(name, title+". ", c.Cuts)...)
	}
	return pages
}

// ordersOf draws the job's purchase, on sheets whose names begin as given.
func (j *Job) ordersOf(name, title string) []*Page {
	p := &j.Purchase
	if len(p.Orders) == 0 {
		return nil
	}
	s := &section{job: j, name: name + "orders", title: title, under: j.Words.OrdersUnder}
	f := s.flowFresh()
	t := j.ordersTable()
	for i := range t.records {
		if to := &t.records[i].link; *to != "" {
			*to = name + *to
		}
	}
	f.table(t)
	f.skip(3 * mm)
	f.without(p.Unpriced, p.Priced())
	pages := s.pages
	for i := range p.Orders {
		for _, page := range j.order(i) {
			page.Sheet.Name = name + page.Sheet.Name
			page.Sheet.Depth = 1
			pages = append(pages, page)
		}
	}
	return pages
}

// Idle draws what lies in the stockroom, season by season.
func (j *KitJob) Idle() []*Page {
	w := j.Words
	s := &section{job: j.Job, name: "idle", title: w.IdleParts, under: w.IdleUnder}
	f := s.flowFresh()
	const most = 12 // seasons beside each other
	said := false
	for from := 0; from < len(j.kit.Seasons); from += most {
		if t := j.idleTable(from, min(len(j.kit.Seasons), from+most)); len(t.records) > 0 {
			said = true
			f.table(t)
			f.skip(5 * mm)
		}
	}
	if !said {
		f.text(w.NothingIdle, letter(plain), 0)
		return s.pages
	}
	var names []string
	for i, season := range j.kit.Seasons {
		names = append(names, numbered(i, season))
	}
	f.text(strings.Join(names, "; "), letter(plain), 0)
	return s.pages
}

// idleTable lists the parts that lie idle in the seasons from..to.
func (j *KitJob) idleTable(from, to int) table {
	t := table{space: tightSpace, columns: []column{{head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 1}}}
	for season := from; season < to; season++ {
		t.columns = append(t.columns, column{head: strconv.Itoa(season + 1), end: true})
	}
	for i := range j.kit.Lines {
		l := &j.kit.Lines[i]
		cells, idle := []string{strconv.Itoa(l.Item), j.partName(l.Part, l.Cut)}, 0
		for season := from; season < to; season++ {
			idle += l.Idle(season)
			cells = append(cells, blankZero(l.Idle(season)))
		}
		if idle > 0 {
			t.records = append(t.records, record{cells: cells})
		}
	}
	return t
}

// numbered is a season's name behind its number.
func numbered(i int, s kit.Season) string { return fmt.Sprintf("%d %s", i+1, s.Name) }
