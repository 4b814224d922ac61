package unit

import (
	"fmt"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// footing is where a face of a frame stands: the floor point under the left
// end of its surface, and the directions along it and out of it.
type footing struct {
	origin, right, out [2]measure.Length
	decked             bool // the base deck reaches out on this side
}

// shell is the bare unit while it is being put together.
type shell struct {
	form        parts.FrameForm
	width       measure.Length // along the front
	depth       measure.Length // from spine to spine, 0 for one spine
	thick       measure.Length // of the front's panels
	panelBottom measure.Length
}

// frameFaces is the faces a frame has, and which of them have panels of their
// own: the back of an H hangs on the front's.
func frameFaces(form parts.FrameForm) (own []plan.FaceID, shared plan.FaceID) {
	switch form {
	case parts.HForm:
		return []plan.FaceID{plan.Front, plan.Right, plan.Left}, plan.Back
	case parts.WallForm:
		return []plan.FaceID{plan.Front}, ""
	default:
		return plan.FaceIDs(), ""
	}
}

// footingOf places a face of the frame. Front and back surfaces look away from
// each other across the spine (H) or the gap (box, tower); ends close the sides.
// width is that of the face itself.
func (c shell) footingOf(face plan.FaceID, width, thick measure.Length) footing {
	half, side := c.depth/2, c.width/2
	if c.form == parts.HForm {
		half = c.thick / 2
	}
	switch face {
	case plan.Front:
		return footing{[2]measure.Length{-side, -half}, [2]measure.Length{1, 0}, [2]measure.Length{0, -1}, true}
	case plan.Back:
		return footing{[2]measure.Length{side, half}, [2]measure.Length{-1, 0}, [2]measure.Length{0, 1}, true}
	case plan.Right:
		return footing{[2]measure.Length{side + thick, -width / 2}, [2]measure.Length{0, 1}, [2]measure.Length{1, 0}, false}
	default:
		return footing{[2]measure.Length{-side - thick, width / 2}, [2]measure.Length{0, -1}, [2]measure.Length{-1, 0}, false}
	}
}

// carcass stands up the unit: frame, stand, panels and faces. It returns nil if the
// plan's words for them make no unit; the findings say why.
func (r *resolver) carcass() *Unit {
	decl := &r.plan.Unit
	frame := r.part(decl.Frame, "a frame", parts.Frame)
	stand := r.part(decl.Stand, "a stand", parts.Stand)
	panels := r.panels(frame)
	if frame == nil || stand == nil || panels == nil {
		return nil
	}
	front := panels[plan.Front]
	if front == nil {
		r.fail(decl.At, "no-front-panel", "the unit has no front panel", "`panels: {front: …}`: the front carries the frame's width", "")
		return nil
	}
	bays := frame.Frame.Bays
	if decl.Bays > 0 {
		bays = decl.Bays
	}
	c := shell{
		form:        frame.Frame.Form,
		width:       measure.Length(bays) * front.Width,
		depth:       frame.Frame.Gap,
		thick:       front.Panel.Thick,
		panelBottom: stand.Stand.Height + frame.Frame.Base,
	}
	u := &Unit{Plan: r.plan, Parts: r.parts, Frame: frame, Stand: stand}
	u.Faces = r.faces(c, frame, stand, panels, bays)
	u.Structure = structure(c, u)
	u.Bare = u.Structure[0].Solid
	for _, s := range u.Structure {
		u.Bare = u.Bare.Union(s.Solid)
	}
	return u
}

// panels looks up the panel of each face of the frame, or nil if there is
// anything wrong with them.
func (r *resolver) panels(frame *parts.Part) map[plan.FaceID]*parts.Part {
	panels := map[plan.FaceID]*parts.Part{}
	sound := true
	for _, fp := range r.plan.Unit.Panels {
		panel := r.part(fp.Panel, "a panel", parts.Panel)
		if panel == nil {
			sound = false
			continue
		}
		panels[fp.Face] = panel
		if frame == nil {
			continue
		}
		if own, shared := frameFaces(frame.Frame.Form); fp.Face == shared {
			if front := panels[plan.Front]; front != nil && front != panel {
				r.fail(fp.Panel.At, "shared-spine", fmt.Sprintf("the back of %s hangs on the front's panels, which are %s", frame.ID, front.ID), front.ID, "leave the back out")
				sound = false
			}
		} else if !has(own, fp.Face) {
			r.fail(fp.Panel.At, "no-such-face", fmt.Sprintf("%s has no %s face", frame.ID, fp.Face), "one of "+faceList(own), "")
			sound = false
		}
	}
	if !sound {
		return nil
	}
	return panels
}

func has(faces []plan.FaceID, face plan.FaceID) bool {
	for _, f := range faces {
		if f == face {
			return true
		}
	}
	return false
}

func faceList(faces []plan.FaceID) string {
	s := ""
	for i, f := range faces {
		if i > 0 {
			s += ", "
		}
		s += string(f)
	}
	return s
}

func (r *resolver) faces(c shell, frame, stand *parts.Part, panels map[plan.FaceID]*parts.Part, bays int) []*Face {
	_, shared := frameFaces(frame.Frame.Form)
	var faces []*Face
	for _, id := range plan.FaceIDs() {
		panel := panels[id]
		if id == shared {
			panel = panels[plan.Front]
		}
		if panel == nil {
			continue
		}
		n := 1
		if id == plan.Front || id == plan.Back {
			n = bays
		}
		width := measure.Length(n) * panel.Width
		foot := c.footingOf(id, width, panel.Panel.Thick)
		f := &Face{
			ID: id, Letter: id.Letter(), Panel: panel, Bays: n, Width: width,
			Bottom: c.panelBottom, Top: c.panelBottom + panel.Panel.Height,
			Deck:   stand.Stand.Height,
			origin: foot.origin, right: foot.right, out: foot.out,
		}
		if foot.decked {
			f.Deck, f.DeckDepth = c.panelBottom, frame.Frame.BaseDepth
		}
		if shared != "" && id == plan.Front {
			f.Twin = shared
		} else if id == shared {
			f.Twin = plan.Front
		}
		faces = append(faces, f)
	}
	return faces
}

// structure lists deck, feet and panels in the order they are built.
func structure(c shell, u *Unit) []Structural {
	deck := deckSolid(c, u.Frame.Frame)
	deck.Z0, deck.Z1 = u.Stand.Stand.Height, c.panelBottom
	list := []Structural{{Part: u.Frame, Solid: deck}}
	for _, foot := range feet(deck, u.Stand.Stand) {
		list = append(list, Structural{Part: u.Stand, Solid: foot})
	}
	for _, f := range u.Faces {
		if f.Twin != "" && f.ID != plan.Front {
			continue
		}
		edges := f.BayEdges()
		for bay := 1; bay <= f.Bays; bay++ {
			box := Box{edges[bay-1], edges[bay], f.Bottom, f.Top, -f.Panel.Panel.Thick, 0}
			list = append(list, Structural{f.Panel, f.Solid(box), f.ID, bay})
		}
	}
	return list
}

func deckSolid(c shell, frame *parts.FrameSpec) Solid {
	back, front := c.depth/2, c.depth/2
	switch c.form {
	case parts.HForm:
		front, back = frame.BaseDepth, frame.BaseDepth
	case parts.WallForm:
		front, back = frame.BaseDepth, c.thick
	}
	return Solid{X0: -c.width / 2, X1: c.width / 2, Y0: -front, Y1: back}
}

// feet stand in from the deck's corners; more than four share the long sides.
func feet(deck Solid, s *parts.StandSpec) []Solid {
	if s.Height == 0 || s.Feet < 2 {
		return nil
	}
	size := max(s.Radius, measure.Inch)
	perSide := (s.Feet + 1) / 2
	var list []Solid
	for i := range s.Feet {
		x := deck.X0 + s.Inset
		if perSide > 1 {
			x += (deck.X1 - deck.X0 - 2*s.Inset) * measure.Length(i%perSide) / measure.Length(perSide-1)
		}
		y := deck.Y0 + s.Inset
		if i >= perSide {
			y = deck.Y1 - s.Inset
		}
		list = append(list, Solid{x - size/2, x + size/2, y - size/2, y + size/2, 0, s.Height})
	}
	return list
}

// part finds a part of one of the given kinds, or reports why it cannot.
func (r *resolver) part(ref plan.Ref, what string, kinds ...parts.Kind) *parts.Part {
	if ref.Name == "" {
		return nil // its absence was reported where the plan was decoded
	}
	p, ok := r.parts.Find(ref.Name)
	if !ok {
		r.unknown(ref, "part", what, r.partIDs(kinds...))
		return nil
	}
	for _, k := range kinds {
		if p.Kind == k {
			return p
		}
	}
	fix := near(ref.Name, r.partIDs(kinds...))
	if p.Kind == parts.Fixing {
		fix = "fixed: {" + p.ID + ": 1} in the parts list, with the part that it holds"
	}
	r.fail(ref.At, "wrong-kind", fmt.Sprintf("%s is a %s", p.ID, p.Kind), what, fix)
	return nil
}

func (r *resolver) unknown(ref plan.Ref, noun, what string, known []string) {
	r.fail(ref.At, "unknown-"+noun, fmt.Sprintf("unknown %s %q", noun, ref.Name), what, near(ref.Name, known))
}

func near(word string, known []string) string {
	if n := diag.Near(word, known); n != "" {
		return fmt.Sprintf("did you mean %s?", n)
	}
	return ""
}
