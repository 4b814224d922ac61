package proof

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// made is what tells pieces apart that are pulled: the part, and the length it
// is cut to.
type made struct {
	part *parts.Part
	cut  measure.Length
}

// each is the weight of one piece: of a cut one its share by length.
func (m made) each() measure.Mass {
	if m.cut == 0 {
		return m.part.Weight
	}
	return measure.Mass(float64(m.part.Weight)*float64(m.cut)/float64(m.part.Width) + 0.5)
}

// census is how many pieces go where: to a face by its word, or "" for the bare
// unit.
type census map[made]map[string]int

func (c census) add(part *parts.Part, cut measure.Length, face string, n int) {
	m := made{part, cut}
	if c[m] == nil {
		c[m] = map[string]int{}
	}
	c[m][face] += n
}

func (c census) all(m made) int {
	n := 0
	for _, k := range c[m] {
		n += k
	}
	return n
}

// recount counts every piece of the unit and every fixing with it, by way of no
// list.
func (p *plan) recount() census {
	c := census{}
	add := func(part *parts.Part, cut measure.Length, face string) {
		c.add(part, cut, face, 1)
		for _, f := range part.Fixed {
			fixing, _ := p.project.Parts.Find(f.Part)
			c.add(fixing, 0, face, f.Count)
		}
	}
	u := p.project.Unit
	add(u.Frame, 0, "")
	if u.Stand.Stand.Feet > 0 || u.Stand.Weight > 0 {
		add(u.Stand, 0, "")
	}
	for _, s := range u.Structure {
		if s.Part.Kind == parts.Panel {
			add(s.Part, 0, "")
		}
	}
	for _, f := range u.Faces {
		for _, r := range f.Rows {
			for _, piece := range r.All() {
				add(piece.Part, piece.Cut, string(f.ID))
			}
		}
	}
	return c
}

// itemised finds what each item of the pick list is, and wants every piece of
// the unit to be an item.
func (p *plan) itemised(t *testing.T, c census) map[int]made {
	t.Helper()
	found := map[int]made{}
	items := p.items(t)
	for m := range c {
		for _, it := range items {
			f, ok := parseFigure(it.cut)
			if it.part == m.part.ID && (m.cut == 0 || ok && p.says(f, nm(m.cut))) {
				found[it.number] = m
			}
		}
	}
	if len(found) != len(c) || len(items) != len(c) {
		t.Fatalf("%d items on the pick list, %d of them known, the unit has %d", len(items), len(found), len(c))
	}
	return found
}

// weighs is a weight as sheets print it.
func (p *plan) weighs(m measure.Mass) string {
	if m == 0 {
		return "–"
	}
	return p.words.Decimal(m.Text(p.project.Plan.Measure))
}

func plainly(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// placeOf is the word of the face that a sheet names, "" for the bare unit.
func (p *plan) placeOf(t *testing.T, name string) string {
	t.Helper()
	w := p.words
	face, ok := map[string]string{w.FrontFace: "front", w.RightFace: "right", w.BackFace: "back", w.LeftFace: "left", w.BareUnit: ""}[name]
	if !ok {
		t.Fatalf("%q is no face", name)
	}
	return face
}

// TestPickListAddsUp recounts every line of the pick list: quantity, packs,
// weight, the size of what is not cut, and the total.
func TestPickListAddsUp(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w, c := p.words, p.recount()
		numbers := p.itemised(t, c)
		pieces, weight := 0, measure.Mass(0)
		for _, e := range table(p.of(pickList, ""), w.Item, w.Size, w.Quantity, w.Packs, w.Weight) {
			n, _ := strconv.Atoi(e.text(w.Item))
			m := numbers[n]
			count := c.all(m)
			pieces, weight = pieces+count, weight+measure.Mass(count)*m.each()
			pack := max(m.part.Pack, 1)
			packs := strconv.Itoa((count + pack - 1) / pack)
			switch {
			case m.part.Cut != nil:
				packs = w.CutList
			case pack > 1:
				packs += " × " + strconv.Itoa(pack)
			}
			got := []string{e.text(w.Quantity), e.text(w.Packs), plainly(e.text(w.Weight))}
			if want := []string{strconv.Itoa(count), packs, p.weighs(measure.Mass(count) * m.each())}; fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("item %d, %s: %q, the unit says %q", n, m.part.ID, got, want)
			}
			if m.part.Mounts != nil && m.part.Cut == nil {
				p.sized(t, n, m.part, plainly(e.text(w.Size)))
			}
		}
		total := plainly(fmt.Sprintf(w.PickTotal, pieces, p.weighs(weight)))
		if !p.printed(pickList, total) {
			t.Errorf("the pick list does not say %q", total)
		}
	})
}

// sized holds the size that is printed of a piece of hardware against the part.
func (p *plan) sized(t *testing.T, item int, part *parts.Part, text string) {
	t.Helper()
	figures := strings.Split(text, " × ")
	last := len(figures) - 1
	figures[last], _, _ = strings.Cut(figures[last], " ")
	for i, l := range []measure.Length{part.Width, part.Depth, part.Above + part.Below} {
		f, ok := figure{}, false
		if last == 2 {
			f, ok = parseFigure(figures[i])
		}
		if !ok || !p.says(f, nm(l)) {
			t.Errorf("item %d, %s: the size is %q, side %d is %s mm", item, part.ID, text, i+1, l.MM())
		}
	}
}

// printed says whether a line stands on a sheet of a kind.
func (p *plan) printed(k kind, line string) bool {
	for _, pg := range p.of(k, "") {
		for _, text := range pg.Texts {
			if plainly(text.S) == line {
				return true
			}
		}
	}
	return false
}

var packedLine = regexp.MustCompile(`(\d+) × \((\d+)\) `)

// TestLoadsOfThePack takes the loads apart again: every piece is in one, where
// it belongs, and none is more than its carriers may lift.
func TestLoadsOfThePack(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w, c := p.words, p.recount()
		numbers := p.itemised(t, c)
		limit := p.project.Plan.Lift
		if !strings.Contains(p.saidOn(loadSheet), p.weighs(limit)) {
			t.Errorf("the loads do not say that the limit is %s", p.weighs(limit))
		}
		carried := census{}
		loads := table(p.of(loadSheet, ""), w.LoadNumber, w.Where, w.PiecesHead, w.Weight, w.LiftHead, w.InsideHead)
		for i, e := range loads {
			place := p.placeOf(t, e.text(w.Where))
			pieces, weight, bulky := 0, measure.Mass(0), false
			for _, m := range packedLine.FindAllStringSubmatch(e.text(w.InsideHead), -1) {
				n, _ := strconv.Atoi(m[1])
				item, _ := strconv.Atoi(m[2])
				what := numbers[item]
				carried.add(what.part, what.cut, place, n)
				pieces, weight = pieces+n, weight+measure.Mass(n)*what.each()
				bulky = bulky || what.part.Kind == parts.Frame || what.part.Kind == parts.Panel
			}
			people := 1
			if lifted := e.text(w.LiftHead); lifted != w.OneLifts {
				if _, err := fmt.Sscanf(lifted, w.MoreLift, &people); err != nil || people < 2 || pieces != 1 || !bulky && weight <= limit {
					t.Errorf("load %d is lifted by %q", i+1, lifted)
				}
			}
			got := []string{e.text(w.LoadNumber), e.text(w.PiecesHead), plainly(e.text(w.Weight))}
			if want := []string{strconv.Itoa(i + 1), strconv.Itoa(pieces), p.weighs(weight)}; fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("load %d: %q, what is in it comes to %q", i+1, got, want)
			}
			if weight > limit*measure.Mass(people) || bulky && people < 2 {
				t.Errorf("load %d of %d mg for %d", i+1, weight, people)
			}
		}
		sameCensus(t, c, carried)
		p.totalLoads(t, loads)
	})
}

// totalLoads holds the totals by place against the loads.
func (p *plan) totalLoads(t *testing.T, loads []entry) {
	t.Helper()
	w := p.words
	count := map[string]int{}
	for _, e := range loads {
		count[e.text(w.Where)]++
	}
	totals := table(p.of(loadSheet, "")[:1], w.Where, w.Loads)
	for _, e := range totals {
		if e.text(w.Loads) != strconv.Itoa(count[e.text(w.Where)]) {
			t.Errorf("%s: %s loads, listed are %d", e.text(w.Where), e.text(w.Loads), count[e.text(w.Where)])
		}
	}
	if len(totals) != len(count) {
		t.Errorf("%d places have totals, %d have loads", len(totals), len(count))
	}
}

// saidOn is all that stands on the sheets of a kind.
func (p *plan) saidOn(k kind) string {
	var all strings.Builder
	for _, pg := range p.of(k, "") {
		for _, text := range pg.Texts {
			all.WriteString(plainly(text.S) + " ")
		}
	}
	return all.String()
}

func sameCensus(t *testing.T, want, got census) {
	t.Helper()
	for m, by := range want {
		if fmt.Sprint(by) != fmt.Sprint(got[m]) {
			t.Errorf("%s cut to %s: %v, the unit has %v", m.part.ID, m.cut.MM(), got[m], by)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d kinds of piece, the unit has %d", len(got), len(want))
	}
}

// TestPickByFaceAddsUp reads the list by face: each face has its own pieces, the
// totals over them are theirs, and nobody could share the faces out better.
func TestPickByFaceAddsUp(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w, c := p.words, p.recount()
		dressed := 0
		for _, f := range p.unit.Faces {
			if len(f.Rows) > 0 {
				dressed++
			}
		}
		if dressed < 2 {
			if p.of(byFace, "") != nil {
				t.Error("one face is shared out")
			}
			return
		}
		numbers := p.itemised(t, c)
		groups := p.faceGroups(t)
		shared := census{}
		for _, e := range table(p.of(byFace, ""), w.Item, w.Part, w.Quantity, w.Weight) {
			n, _ := strconv.Atoi(e.text(w.Item))
			count, _ := strconv.Atoi(e.text(w.Quantity))
			m := numbers[n]
			g := groups.over(e)
			shared.add(m.part, m.cut, g.face, count)
			if got, want := plainly(e.text(w.Weight)), p.weighs(measure.Mass(count)*m.each()); got != want {
				t.Errorf("item %d on %s weighs %s, want %s", n, g.face, got, want)
			}
		}
		sameCensus(t, c, shared)
		seconds := map[string]int{}
		for _, g := range groups {
			pieces, weight := 0, measure.Mass(0)
			for m, by := range c {
				pieces, weight = pieces+by[g.face], weight+measure.Mass(by[g.face])*m.each()
				seconds[g.face] += by[g.face] * list.Seconds(m.part)
			}
			if want := plainly(fmt.Sprintf(w.FaceSays, g.name, pieces, p.words.Decimal(weight.Text(p.project.Plan.Measure)), max((seconds[g.face]+30)/60, 1))); g.text != want {
				t.Errorf("%q heads a face, the unit says %q", g.text, want)
			}
		}
		p.bestShared(t, seconds)
	})
}

// bestShared tries every way of sharing the faces out.
func (p *plan) bestShared(t *testing.T, seconds map[string]int) {
	t.Helper()
	w := p.words
	var faces []string
	for _, f := range p.unit.Faces {
		if seconds[f.Face] > 0 {
			faces = append(faces, f.Face)
		}
	}
	best := 1 << 40
	for way := range 1 << len(faces) {
		var two [2]int
		for i, f := range faces {
			two[way>>i&1] += seconds[f]
		}
		best = min(best, max(two[0], two[1]))
	}
	last := 0
	for _, e := range table(p.of(byFace, ""), w.WhoHead, w.FacesHead)[1:3] { // after what both do together; then come notes
		sum := 0
		for _, name := range strings.Split(e.text(w.FacesHead), ", ") {
			sum += seconds[p.placeOf(t, name)]
		}
		last = max(last, sum)
	}
	if last != best {
		t.Errorf("shared out as printed the faces take %d s, the best is %d s", last, best)
	}
}

// faceGroup is the heading of a face within a table.
type faceGroup struct {
	text, name, face string
	page             int
	at               float64
}

type faceGroups []faceGroup

// faceGroups reads the headings in order.
func (p *plan) faceGroups(t *testing.T) faceGroups {
	t.Helper()
	var groups faceGroups
	says := regexp.QuoteMeta(plainly(p.words.FaceSays))
	says = strings.NewReplacer("%s", "(.+?)", "%d", `\d+`).Replace(says)
	heading := regexp.MustCompile("^" + says + "$")
	for _, pg := range p.of(byFace, "") {
		for _, text := range pg.Texts {
			if m := heading.FindStringSubmatch(plainly(text.S)); m != nil && bold(text) {
				groups = append(groups, faceGroup{plainly(text.S), m[1], p.placeOf(t, m[1]), pg.number, text.At.Y})
			}
		}
	}
	return groups
}

// over is the last heading before an entry.
func (g faceGroups) over(e entry) faceGroup {
	last := faceGroup{}
	for _, h := range g {
		if h.page < e.page.number || h.page == e.page.number && h.at < e.top {
			last = h
		}
	}
	return last
}

// TestMassesAgree holds what the checks take the bare unit to weigh against the
// pieces that are pulled.
func TestMassesAgree(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		sum, pieces := measure.Mass(0), 0
		c := p.recount()
		for m := range c {
			sum += measure.Mass(c.all(m)) * m.each()
			pieces += c.all(m)
		}
		got := p.project.Report.Assessment.Bare.Mass * 1e6
		if off := got - float64(sum); off > float64(pieces) || off < -float64(pieces) { // a milligram a piece, for those that are cut
			t.Errorf("the checks take it to weigh %.0f mg, its pieces weigh %d", got, sum)
		}
	})
}
