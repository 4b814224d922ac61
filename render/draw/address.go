package draw

import (
	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// rowAddresses finds places for the rows' addresses beside their pieces. A
// row that has no room for it is not among them: its callout carries it.
func (e *elevation) rowAddresses(rows []*unit.Row) map[*unit.Row]sheet.Rect {
	places := map[*unit.Row]sheet.Rect{}
	field := box(e.x(e.zone.x0), e.y(tallest(e.face))-5*mm, e.x(e.zone.x1), e.y(0))
	for _, r := range rows {
		if at, ok := e.addressPlace(r, field); ok {
			places[r] = at
			e.keepWord(at)
		}
	}
	return places
}

// writeAddresses writes the addresses at their places: after the leaders, one
// of which may have had to pass behind an address.
func (e *elevation) writeAddresses(rows []*unit.Row, places map[*unit.Row]sheet.Rect) {
	for _, r := range rows {
		if at, ok := places[r]; ok {
			e.fillBox(at, white())
			e.write(at.Min.X+300*micron, at.Max.Y-letter(plain).drop(), r.Address, letter(plain).strong())
		}
	}
}

// addressPlace looks for a free place in the field: between the row's pieces, where it
// takes no height from the dimensions under them; beside, over, under them.
func (e *elevation) addressPlace(r *unit.Row, field sheet.Rect) (sheet.Rect, bool) {
	s := letter(plain).strong()
	w, h := s.width(r.Address)+600*micron, s.rise()+s.drop()
	for _, at := range e.addressPlaces(r, w, h) {
		try := sheet.Rect{Min: at, Max: pt(at.X+w, at.Y+h)}
		if within(try, field) && e.clear(try) {
			return try, true
		}
	}
	return sheet.Rect{}, false
}

func (e *elevation) addressPlaces(r *unit.Row, w, h measure.Length) []sheet.Point {
	const gap = 400 * micron
	var shown []sheet.Rect
	for _, p := range r.Pieces {
		if e.zone.shows(p.Box) {
			shown = append(shown, e.paper(p.Box))
		}
	}
	if len(shown) == 0 {
		return nil
	}
	first, last := shown[0], shown[len(shown)-1]
	mid := (first.Min.Y+first.Max.Y)/2 - h/2
	over, under := first.Min.Y-gap-h, first.Max.Y+gap
	var list []sheet.Point
	for i := 1; i < len(shown); i++ {
		list = append(list, pt((shown[i-1].Max.X+shown[i].Min.X-w)/2, mid))
	}
	if left := first.Min.X - gap - w; left >= e.x(max(r.X0, e.zone.x0)) {
		list = append(list, pt(left, mid))
	}
	if xs := places(r); len(xs) > 0 && e.zone.holds(xs[0]) {
		list = append(list, pt(e.x(xs[0])+800*micron, over))
	}
	list = append(list, pt(first.Min.X, over), pt(last.Max.X+gap, mid), pt(last.Max.X-w, over))
	for i := 1; i < len(shown); i++ {
		list = append(list, pt((shown[i-1].Max.X+shown[i].Min.X-w)/2, over))
	}
	return append(list, pt(last.Max.X-w, under), pt(first.Min.X, under))
}
