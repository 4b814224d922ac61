package pdf

import (
	"fmt"
	"strings"

	"setwright/render/sheet"
)

// entry is one bookmark; the others it names are places in the list, -1 for
// none.
type entry struct {
	parent, prev, next, first, last int
	count                           int // of all bookmarks under it
}

// nest hangs each sheet under the nearest one before it of lesser depth. The
// last entry is the root. A depth that jumps by more than one counts as one
// deeper.
func nest(sheets []*sheet.Sheet) []entry {
	root := len(sheets)
	entries := make([]entry, root+1)
	for i := range entries {
		entries[i] = entry{-1, -1, -1, -1, -1, 0}
	}
	var open []int // the chain of sheets the next may hang under
	for i, s := range sheets {
		for len(open) > 0 && sheets[open[len(open)-1]].Depth >= s.Depth {
			open = open[:len(open)-1]
		}
		parent := root
		if len(open) > 0 {
			parent = open[len(open)-1]
		}
		hang(entries, i, parent)
		open = append(open, i)
	}
	return entries
}

func hang(entries []entry, i, parent int) {
	entries[i].parent = parent
	if last := entries[parent].last; last >= 0 {
		entries[last].next, entries[i].prev = i, last
	} else {
		entries[parent].first = i
	}
	entries[parent].last = i
	for up := parent; up >= 0; up = entries[up].parent {
		entries[up].count++
	}
}

// addOutlines adds a bookmark for each sheet, all open, and returns the
// root's number.
func (f *file) addOutlines(p *sheet.Pack, pages []int) int {
	entries := nest(p.Sheets)
	base := len(f.objects) // where the first bookmark will stand
	for i, e := range entries {
		var b strings.Builder
		b.WriteString("<<")
		if i < len(p.Sheets) {
			title := p.Sheets[i].Title
			if title == "" {
				title = p.Sheets[i].Name
			}
			fmt.Fprintf(&b, "/Title%s/Dest[%d 0 R/Fit]", textString(title), pages[i])
		} else {
			b.WriteString("/Type/Outlines")
		}
		for _, to := range []struct {
			key   string
			entry int
		}{{"Parent", e.parent}, {"Prev", e.prev}, {"Next", e.next}, {"First", e.first}, {"Last", e.last}} {
			if to.entry >= 0 {
				fmt.Fprintf(&b, "/%s %d 0 R", to.key, base+to.entry)
			}
		}
		if e.count > 0 {
			fmt.Fprintf(&b, "/Count %d", e.count)
		}
		b.WriteString(">>")
		f.add(object{dict: b.String()})
	}
	return base + len(p.Sheets)
}
