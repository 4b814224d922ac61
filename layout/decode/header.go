package decode

import (
	"fmt"
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// head is the head of a column.
type head struct {
	name, unit string // the name it is known by, or else as it is written
	at         diag.Span
	known      bool
	measured   bool // its cells are lengths or weights,
	decimals   bool // or other numbers that may have decimals
}

// header reads the first row and reports what is wrong with it.
func (t *table) header() bool {
	cells, ok := t.next()
	if !ok {
		if t.count == 0 {
			t.fail("empty-file", diag.Span{File: t.file, Line: 1, Col: 1}, "this file is empty", "a header row", "")
		}
		return false
	}
	if t.single(cells) {
		return false
	}
	good := true
	t.index = make(map[string]int, len(cells))
	for i, cell := range cells {
		h, ok := t.head(cell, t.at(i, cells))
		good = good && ok
		if h.known {
			t.index[h.name] = i
		}
		t.heads = append(t.heads, h)
		t.dialect.Columns = append(t.dialect.Columns, Column{Name: h.name, Unit: h.unit, Known: h.known, Measured: h.measured})
	}
	missing := t.missing()
	if missing == nil {
		t.noteUnknown()
		return good
	}
	if t.late(t.heads[0].at) {
		return false
	}
	t.failMissing(missing)
	t.noteUnknown()
	return false
}

// late reports a first row that is not the header where that stands below.
func (t *table) late(at diag.Span) bool {
	line := t.laterHeader()
	if line == 0 {
		return false
	}
	t.fail("late-header", at, "this row is not the header", "a header row with "+strings.Join(t.cols.Needed, ", "),
		fmt.Sprintf("delete the rows above line %d, where the header is", line))
	return true
}

// laterHeader is the line of a header that stands under a title, as reports have
// it, 0 if there is none near.
func (t *table) laterHeader() int {
	const rows = 20 // no title is longer
	for range rows {
		cells, err := t.reader.Read()
		if err != nil {
			break
		}
		found := 0
		for _, cell := range cells {
			if name, _ := headWords(cell); slices.Contains(t.cols.Needed, name) {
				found++
			}
		}
		if found >= len(t.cols.Needed) {
			line, _ := t.reader.FieldPos(0)
			return line + t.skipped
		}
	}
	return 0
}

// single reports a header that is one cell with others inside it: they are
// separated by something else, or the line is quoted as a whole.
func (t *table) single(cells []string) bool {
	if len(cells) > 1 || len(strings.FieldsFunc(cells[0], isJoint)) < 2 {
		return false
	}
	if name, _ := headWords(cells[0]); slices.Contains(t.cols.known(), name) {
		return false
	}
	at, written := t.at(0, cells), cells[0]
	if t.late(at) {
		return true
	}
	fix := "save it again with one of these between the cells"
	for _, c := range separators {
		if strings.ContainsRune(written, c) {
			fix = "save it again without quote marks round whole lines"
		}
	}
	t.fail("one-column", at, fmt.Sprintf("the header is a single cell, %s", quote(written)),
		"cells separated by commas, semicolons, tabs or vertical bars", fix)
	return true
}

// isJoint says whether a character may have been meant to separate words.
func isJoint(r rune) bool { return strings.ContainsRune(separators+":/^~ ", r) }

// head reads the head of a column; false if its unit is none, or it is there
// already.
func (t *table) head(cell string, at diag.Span) (head, bool) {
	name, unit := headWords(cell)
	if !slices.Contains(t.cols.known(), name) {
		return head{name: strings.Join(strings.Fields(cell), " "), at: at}, true
	}
	if i, twice := t.index[name]; twice {
		t.report(diag.Finding{Level: diag.Error, Code: "duplicate-column", At: at,
			Message: fmt.Sprintf("the column %s is there twice", quote(name)), Fix: "delete one of them",
			Notes: []diag.Related{{At: t.heads[i].at, Message: "it is here already"}}})
		return head{at: at}, false
	}
	h := head{name: name, at: at, known: true}
	isWeight := slices.Contains(t.cols.Weights, name)
	h.measured, h.decimals = isWeight || slices.Contains(t.cols.Lengths, name), slices.Contains(t.cols.Decimals, name)
	if !h.measured {
		return h, true // what is in brackets may be a currency
	}
	h.unit = unit
	of, units := "length", "in, ft, mm, cm or m"
	_, err := measure.ParseLength("1"+unit, measure.Inches)
	if isWeight {
		of, units = "weight", "lb, oz, kg, g or mg"
		_, err = measure.ParseMass("1"+unit, measure.Inches)
	}
	if err != nil {
		t.fail("bad-unit", at, fmt.Sprintf("%s is no unit of %s", quote(unit), of), units, "")
	}
	return h, err == nil
}

// missing are the columns that must be there and are not.
func (t *table) missing() []string {
	var missing []string
	for _, name := range t.cols.Needed {
		if _, there := t.index[name]; !there {
			missing = append(missing, name)
		}
	}
	return missing
}

// failMissing reports the columns that are missing, all at once, and what they
// may be called in the file.
func (t *table) failMissing(missing []string) {
	var names, renames []string
	for _, name := range missing {
		names = append(names, quote(name))
		if near := diag.Near(name, t.unknown()); near != "" {
			renames = append(renames, fmt.Sprintf("%s to %s", quote(near), quote(name)))
		}
	}
	at := t.heads[0].at
	at.Len = 1
	t.fail("missing-column", at, "there is no column "+strings.Join(names, ", "),
		"a header row with "+strings.Join(t.cols.Needed, ", "), renaming(renames))
}

// renaming is the fix that gives columns other names.
func renaming(renames []string) string {
	const most = 12
	if renames == nil {
		return ""
	}
	return "rename " + strings.Join(renames[:min(len(renames), most)], ", ")
}

// unknown are the names of the columns that are not known.
func (t *table) unknown() []string {
	var names []string
	for _, h := range t.heads {
		if !h.known && h.name != "" {
			names = append(names, h.name)
		}
	}
	return names
}

// noteUnknown names the columns that are not known, and what they may have been
// meant to be.
func (t *table) noteUnknown() {
	const most = 12 // more are counted
	var names, renames, absent []string
	for _, name := range t.cols.known() {
		if _, there := t.index[name]; !there {
			absent = append(absent, name)
		}
	}
	for _, name := range t.unknown() {
		if len(names) < most {
			names = append(names, quote(name))
		}
		if near := diag.Near(name, absent); near != "" {
			renames = append(renames, fmt.Sprintf("%s to %s", quote(name), quote(near)))
		}
	}
	if names == nil {
		return
	}
	all, noun := strings.Join(names, ", "), "the column %s is not known; its cells are kept and not used"
	if n := len(t.unknown()); n > 1 {
		noun = "the columns %s are not known; their cells are kept and not used"
		if n > most {
			all += fmt.Sprintf(" and %d more", n-most)
		}
	}
	i := slices.IndexFunc(t.heads, func(h head) bool { return !h.known && h.name != "" })
	t.report(diag.Finding{Level: diag.Note, Code: "unknown-column", At: t.heads[i].at, Message: fmt.Sprintf(noun, all),
		Expected: oneOf(t.cols.known()), Fix: renaming(renames)})
}

// headWords splits "Width (in)" into its name and unit.
func headWords(cell string) (name, unit string) {
	cell = strings.ToLower(strings.TrimSpace(cell))
	i := strings.IndexAny(cell, "([")
	if i < 0 {
		return cell, ""
	}
	return strings.TrimSpace(cell[:i]), strings.Trim(cell[i:], "()[] ")
}
