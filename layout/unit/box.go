package unit

import "setwright/layout/measure"

// Width is the box's size across, Height its size up, Depth its size outward.
func (b Box) Width() measure.Length { return b.X1 - b.X0 }

// Height is the box's size up.
func (b Box) Height() measure.Length { return b.Y1 - b.Y0 }

// Depth is the box's size outward from the panel.
func (b Box) Depth() measure.Length { return b.D1 - b.D0 }

// Meets reports whether two boxes of one face share more than a surface.
func (b Box) Meets(o Box) bool {
	return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1 && b.D0 < o.D1 && o.D0 < b.D1
}

// Overlap is the size of what two solids share in X, Y and Z; all three are
// positive if they collide.
func (s Solid) Overlap(o Solid) (x, y, z measure.Length) {
	return min(s.X1, o.X1) - max(s.X0, o.X0), min(s.Y1, o.Y1) - max(s.Y0, o.Y0), min(s.Z1, o.Z1) - max(s.Z0, o.Z0)
}

// Union is the smallest solid round both.
func (s Solid) Union(o Solid) Solid {
	return Solid{
		min(s.X0, o.X0), max(s.X1, o.X1),
		min(s.Y0, o.Y0), max(s.Y1, o.Y1),
		min(s.Z0, o.Z0), max(s.Z1, o.Z1),
	}
}

// Solid turns a box of this face into unit coordinates. Faces stand square to
// one another, so a box stays an upright box.
func (f *Face) Solid(b Box) Solid {
	ax, ay := f.point(b.X0, b.D0)
	bx, by := f.point(b.X1, b.D1)
	return Solid{min(ax, bx), max(ax, bx), min(ay, by), max(ay, by), b.Y0, b.Y1}
}

// point is the place on the floor at x along the face and d out from it.
func (f *Face) point(x, d measure.Length) (measure.Length, measure.Length) {
	return f.origin[0] + x*f.right[0] + d*f.out[0], f.origin[1] + x*f.right[1] + d*f.out[1]
}

// Box is a solid as the face's viewer sees it: Solid the other way round.
func (f *Face) Box(s Solid) Box {
	ax, ad := f.along(s.X0, s.Y0)
	bx, bd := f.along(s.X1, s.Y1)
	return Box{min(ax, bx), max(ax, bx), s.Z0, s.Z1, min(ad, bd), max(ad, bd)}
}

// along is how far along the face a place on the floor is, and how far out.
func (f *Face) along(x, y measure.Length) (along, out measure.Length) {
	x, y = x-f.origin[0], y-f.origin[1]
	return x*f.right[0] + y*f.right[1], x*f.out[0] + y*f.out[1]
}
