// Package fonts embeds the two faces every sheet is lettered in, and measures
// text. Text is measured here and nowhere else.
package fonts

import "setwright/layout/measure"

// Face is one of the embedded faces.
type Face uint8

// The faces: a condensed sans with tabular figures, and its bold.
const (
	Regular Face = iota
	Bold
)

// EmFor returns the em size whose capitals are height tall: sheets speak of
// lettering height as ISO 3098 does, fonts of the em.
func EmFor(height measure.Length) measure.Length { panic("not written yet") }

// Width returns the advance width of s set at the given em size. Characters
// the face lacks count as the replacement the writers print.
func Width(f Face, s string, em measure.Length) measure.Length { panic("not written yet") }
