package draw

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// ghost says how hardware is drawn: dark on its own sheet, pale behind goods.
type ghost struct {
	edge, fine sheet.Stroke
}

func dark() ghost { return ghost{pen(medium), pen(hair)} }
func pale() ghost { return ghost{pencil(hair, 150), pencil(hair, 185)} }

// piece draws one piece of hardware as the kind of thing it is, at its true
// place and size.
func (e *elevation) piece(p *unit.Piece, g ghost) {
	if !e.zone.shows(p.Box) {
		return
	}
	r := e.paper(p.Box)
	bearing := e.y(e.face.SlotHeight(p.Slot) + p.Part.Bearing)
	switch p.Part.Kind {
	case parts.Hook:
		e.hook(r, bearing, g)
	case parts.Shelf:
		e.shelf(r, bearing, g)
	case parts.Slope:
		e.slope(r, g)
	case parts.Rail:
		e.rail(p, r, bearing, g)
	case parts.FaceOut:
		e.faceOut(p, r, bearing, g)
	case parts.Basket:
		e.basket(r, g)
	case parts.Bar:
		e.bar(p, r, bearing, g)
	case parts.Shoe:
		e.shoe(r, bearing, g)
	case parts.Sign:
		e.sign(r, g)
	case parts.Strip:
		e.solidBox(r, g.fine, grey(215))
	default:
		e.solidBox(r, g.edge, white())
	}
}

// hook is a back plate with the peg's end on it.
func (e *elevation) hook(r sheet.Rect, bearing measure.Length, g ghost) {
	e.solidBox(r, g.edge, white())
	ink := g.edge.Color
	e.circle((r.Min.X+r.Max.X)/2, bearing, max(wide(r)/5, 250*micron), nil, &ink)
}

// shelf is its board's edge, with the lip that hangs below it in front.
func (e *elevation) shelf(r sheet.Rect, bearing measure.Length, g ghost) {
	e.solidBox(r, g.edge, white())
	if under := bearing + e.view.len(measure.Inch*3/4); under < r.Max.Y-300*micron {
		e.line(r.Min.X, under, r.Max.X, under, g.fine)
	}
}

// slope is a tray of wires running to the front, whose lower edge is nearest.
func (e *elevation) slope(r sheet.Rect, g ghost) {
	e.solidBox(r, g.edge, white())
	step := e.view.len(3 * measure.Inch)
	for x := r.Min.X + step; x < r.Max.X-step/2; x += step {
		e.line(x, r.Min.Y, x, r.Max.Y, g.fine)
	}
	front := r.Max.Y - min(high(r)/3, e.view.len(measure.Inch))
	e.line(r.Min.X, front, r.Max.X, front, g.fine)
}

// rail is the bar across and the two arms that hold it.
func (e *elevation) rail(p *unit.Piece, r sheet.Rect, bearing measure.Length, g ghost) {
	half := e.view.len(measure.Inch / 2)
	for _, grip := range p.Grips {
		arm := e.paper(unit.Box{X0: grip.X0, X1: grip.X1, Y0: p.Box.Y0, Y1: p.Box.Y1})
		e.solidBox(arm, g.edge, white())
	}
	e.solidBox(box(r.Min.X, bearing-half, r.Max.X, bearing+half), g.edge, white())
}

// faceOut is a plate and the arm's end; a stepped one shows its places going down.
func (e *elevation) faceOut(p *unit.Piece, r sheet.Rect, bearing measure.Length, g ghost) {
	e.solidBox(r, g.edge, white())
	mid, half := (r.Min.X+r.Max.X)/2, max(wide(r)/4, 300*micron)
	steps := max(p.Part.Steps, 1)
	for i := range steps {
		y := bearing
		if steps > 1 {
			y += (r.Max.Y - half - bearing) * measure.Length(i) / measure.Length(steps-1)
		}
		e.outlineBox(box(mid-half, y-half, mid+half, y+half), g.edge)
	}
}

// basket is a box of wires.
func (e *elevation) basket(r sheet.Rect, g ghost) {
	e.solidBox(r, g.edge, white())
	step := max(e.view.len(2*measure.Inch), 1*mm)
	for x := r.Min.X + step; x < r.Max.X-step/4; x += step {
		e.line(x, r.Min.Y, x, r.Max.Y, g.fine)
	}
	for y := r.Min.Y + step; y < r.Max.Y-step/4; y += step {
		e.line(r.Min.X, y, r.Max.X, y, g.fine)
	}
}

// bar is a belt bar: a rail with the ends of its pegs.
func (e *elevation) bar(p *unit.Piece, r sheet.Rect, bearing measure.Length, g ghost) {
	half := max(e.view.len(measure.Inch/2), 300*micron)
	for _, grip := range p.Grips {
		e.solidBox(e.paper(unit.Box{X0: grip.X0, X1: grip.X1, Y0: p.Box.Y0, Y1: p.Box.Y1}), g.edge, white())
	}
	e.solidBox(box(r.Min.X, bearing-half, r.Max.X, bearing+half), g.edge, white())
	ink := g.edge.Color
	n := measure.Length(max(p.Part.Pegs, 1))
	for i := range n {
		e.circle(r.Min.X+wide(r)*(2*i+1)/(2*n), bearing, max(half/2, 200*micron), nil, &ink)
	}
}

// shoe is a small plate that one shoe stands on.
func (e *elevation) shoe(r sheet.Rect, bearing measure.Length, g ghost) {
	mid, arm := (r.Min.X+r.Max.X)/2, max(e.view.len(measure.Inch/2), 300*micron)
	e.solidBox(box(mid-arm, r.Min.Y, mid+arm, r.Max.Y), g.fine, white())
	e.solidBox(box(r.Min.X, bearing, r.Max.X, bearing+max(e.view.len(measure.Inch/2), 400*micron)), g.edge, white())
}

// sign is a frame for a card.
func (e *elevation) sign(r sheet.Rect, g ghost) {
	e.solidBox(r, g.edge, white())
	in := inset(r, min(800*micron, high(r)/5))
	e.outlineBox(in, g.fine)
	e.line(in.Min.X, in.Max.Y, in.Max.X, in.Min.Y, g.fine)
}

// hardware draws every piece of the face: brackets first, since shelves hide
// their tops, then the rows from the top down.
func (e *elevation) hardware(g ghost) {
	for _, r := range e.face.Rows {
		for _, p := range r.Brackets {
			e.piece(p, g)
		}
	}
	for _, r := range e.face.Rows {
		for _, p := range r.Pieces {
			e.piece(p, g)
		}
		for _, p := range r.Extras {
			e.piece(p, g)
		}
	}
}
