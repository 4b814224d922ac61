package sheet

// What both writers agree leaves no mark.

// Dashed reports whether s is broken by its pattern. A pattern that is empty,
// all zero, or has a negative length stands for a continuous line.
func (s Stroke) Dashed() bool {
	some := false
	for _, l := range s.Dash {
		if l < 0 {
			return false
		}
		some = some || l > 0
	}
	return some
}

// Shows reports whether p has anything to draw and to draw it with.
func (p Path) Shows() bool {
	return len(p.Points) >= 2 && (p.Stroke != nil || p.Fill != nil)
}

// Shows reports whether c has anything to draw and to draw it with.
func (c Circle) Shows() bool {
	return c.Radius > 0 && (c.Stroke != nil || c.Fill != nil)
}

// Shows reports whether t has letters of some size.
func (t Text) Shows() bool { return t.S != "" && t.Size > 0 }
