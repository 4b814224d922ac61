package draw

import (
	"cmp"
	"slices"

	"setwright/layout/diag"
)

// graded is the findings by level, the gravest first, otherwise as they come.
func graded(findings []diag.Finding) []diag.Finding {
	list := slices.Clone(findings)
	slices.SortStableFunc(list, func(a, b diag.Finding) int { return cmp.Compare(b.Level, a.Level) })
	return list
}
