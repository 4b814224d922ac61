package diag

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// String is the level's name: note, caution, stop or error.
func (l Level) String() string {
	switch l {
	case Note:
		return "note"
	case Caution:
		return "caution"
	case Stop:
		return "stop"
	case Error:
		return "error"
	}
	return fmt.Sprintf("level %d", uint8(l))
}

// MarshalText is the level's name, as JSON and tables write it.
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// String is the place as file:line:col, shorter where less is known, and ""
// for nowhere.
func (s Span) String() string {
	switch {
	case s.Line == 0:
		return s.File
	case s.Col == 0:
		return fmt.Sprintf("%s:%d", s.File, s.Line)
	}
	return fmt.Sprintf("%s:%d:%d", s.File, s.Line, s.Col)
}

// compare puts spans in reading order: file, line, column, then length.
func (s Span) compare(t Span) int {
	return cmp.Or(
		cmp.Compare(s.File, t.File), cmp.Compare(s.Line, t.Line),
		cmp.Compare(s.Col, t.Col), cmp.Compare(s.Len, t.Len))
}

// All returns the findings in their present order. The slice is the list's
// own: callers read it only.
func (l *List) All() []Finding { return l.all }

// Len is the number of findings.
func (l *List) Len() int { return len(l.all) }

// Sort puts findings in reading order: by file, line and column, then the
// graver first, then by code. Findings equal in all of these keep their order.
func (l *List) Sort() {
	slices.SortStableFunc(l.all, func(a, b Finding) int {
		return cmp.Or(a.At.compare(b.At), cmp.Compare(b.Level, a.Level), cmp.Compare(a.Code, b.Code))
	})
}

// Dedupe drops every finding that says the same of the same place as an
// earlier one, adding the places of the dropped one to it.
func (l *List) Dedupe() {
	type key struct {
		level         Level
		code, message string
		at            Span
	}
	first := make(map[key]int, len(l.all))
	kept := l.all[:0:0]
	for _, f := range l.all {
		k := key{f.Level, f.Code, f.Message, f.At}
		i, seen := first[k]
		if !seen {
			first[k] = len(kept)
			kept = append(kept, f)
			continue
		}
		kept[i].Where = union(kept[i].Where, f.Where)
		kept[i].Notes = union(kept[i].Notes, f.Notes)
	}
	l.all = kept
}

// union is a followed by what of b is not in it, in new storage.
func union[T comparable](a, b []T) []T {
	all := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// Worst is the gravest level in the list, Note if it is empty.
func (l *List) Worst() Level {
	worst := Note
	for _, f := range l.all {
		worst = max(worst, f.Level)
	}
	return worst
}

// Has says whether any finding is of that level.
func (l *List) Has(level Level) bool { return l.Count(level) > 0 }

// Count is the number of findings of that level.
func (l *List) Count(level Level) int {
	n := 0
	for _, f := range l.all {
		if f.Level == level {
			n++
		}
	}
	return n
}

// Near returns the word of the list nearest to the one that was misspelt, or
// "" when none is near enough to be meant: one slip for every three letters,
// and at least one. A slip is a letter added, dropped, changed or swapped with
// its neighbour; capitals do not count. Of equally near words the first wins.
func Near(word string, words []string) string {
	const longest = 64 // beyond it nothing was misspelt
	w := []rune(strings.ToLower(word))
	if len(w) == 0 || len(w) > longest {
		return ""
	}
	best, least := "", max(1, len(w)/3)+1
	for _, candidate := range words {
		c := []rune(strings.ToLower(candidate))
		if abs(len(c)-len(w)) >= least || len(c) > longest {
			continue
		}
		if d := slips(w, c); d < least && d < len(c) {
			best, least = candidate, d
		}
	}
	return best
}

// slips is the optimal string alignment distance (Damerau 1964, restricted to
// swaps of letters that were neighbours in both words).
func slips(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			change := last[j]
			if a[i] != b[j] {
				change++
			}
			row[j+1] = min(change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

func abs(n int) int { return max(n, -n) }
