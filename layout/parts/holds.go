package parts

import (
	"slices"

	"setwright/layout/goods"
	"setwright/layout/measure"
)

// Takes reports whether goods of that form go on the part.
func (p *Part) Takes(form goods.Form) bool { return slices.Contains(p.Holds, form) }

// MountsOn reports whether the part hangs on that surface.
func (p *Part) MountsOn(s Surface) bool { return slices.Contains(p.Mounts, s) }

// Run is the width a part has for fronts side by side.
func (p *Part) Run() measure.Length {
	if p.Kind == Rail {
		return p.Usable
	}
	return p.Width
}
