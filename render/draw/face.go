package draw

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/unit"
)

// Hardware draws the sheets of a face's hardware: the elevation with its
// section, on several sheets if the face is too wide for one at a legible
// scale, and the table of what hangs on it.
func (j *Job) Hardware(f *unit.Face) []*Page {
	s := &section{job: j, name: string(f.ID) + "-hardware", title: fmt.Sprintf(j.Words.HardwareOf, j.faceName(f.ID)),
		under: fmt.Sprintf(j.Words.HangEvery, j.slotWord(f))}
	plots := j.plots(f)
	t := j.faceTable(f)
	last := plots[len(plots)-1]
	area := last.tableArea(j, t)
	found, bare := j.placedOn(f), map[int][]string{}
	for _, p := range plots {
		p.draw(s, found, bare)
	}
	if len(t.records) == 0 {
		return s.pages
	}
	flow := s.flowOn(s.pages[len(s.pages)-1], area)
	if high(area) < 25*mm {
		flow = s.flowFresh()
	}
	head := letter(plain).strong()
	t.fit(wide(flow.area), flow.left()-head.pitch()-1*mm)
	flow.headedBeside(j.Words.OnThisFace, j.findingsHere(found, bare), head, 12*mm)
	flow.table(t)
	return s.pages
}

// faceTable lists the parts of a face: balloon, name, pieces, and for each
// row that has them where it hangs and every place along the face.
func (j *Job) faceTable(f *unit.Face) table {
	t := table{height: fine, columns: []column{
		{tick: true}, {head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 2}, {head: j.Words.Quantity, end: true}, {head: fmt.Sprintf(j.Words.WhereFrom, j.unitName()), flex: 5},
	}}
	for _, line := range j.pick {
		n, where := j.onFace(f, line)
		if n == 0 {
			continue
		}
		t.records = append(t.records, record{cells: []string{"", strconv.Itoa(line.Balloon), j.partName(line.Part, line.Cut), strconv.Itoa(n), strings.Join(where, "\n")}})
	}
	return t
}

// onFace counts the pieces of a pick line on a face and says where they are,
// rows whose pieces hang at the same places on one line.
func (j *Job) onFace(f *unit.Face, line list.PickLine) (n int, where []string) {
	var places []string
	for _, r := range f.Rows {
		var pieces []*unit.Piece
		for _, p := range r.All() {
			if j.balloon(p.Part, p.Cut) == line.Balloon {
				pieces = append(pieces, p)
			}
		}
		if len(pieces) == 0 {
			continue
		}
		n += len(pieces)
		at := fmt.Sprintf("%s %s, %s", r.Address, j.slotName(f, pieces[0].Slot), j.figure(f.SlotHeight(pieces[0].Slot)))
		spots := j.spots(pieces)
		if k := slices.Index(places, spots); k >= 0 {
			where[k] += "; " + at
			continue
		}
		places, where = append(places, spots), append(where, at)
	}
	for i := range where {
		where[i] += ": " + places[i]
	}
	return n, where
}

// spots says where along the face pieces hang: their middles, both grips of
// what has two, both ends of what rests on others.
func (j *Job) spots(pieces []*unit.Piece) string {
	var figures []string
	for _, p := range pieces {
		switch {
		case len(p.Grips) > 1:
			for _, g := range p.Grips {
				figures = append(figures, j.figure((g.X0+g.X1)/2))
			}
		case len(p.Grips) == 0:
			figures = append(figures, fmt.Sprintf(j.Words.FromTo, j.figure(p.Box.X0), j.figure(p.Box.X1)))
		default:
			figures = append(figures, j.figure(p.X))
		}
	}
	return strings.Join(figures, " · ")
}
