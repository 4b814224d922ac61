package proof

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/parts"
)

// item is a line of the pick list: a part, and the length it is cut to.
type item struct {
	number int
	part   string
	cut    string // as printed, "" if it is not cut
	rows   []string
	count  int
	fixing bool // it is not on the drawings, nor in the unit as others are given it
}

// items reads the pick list.
func (p *plan) items(t *testing.T) map[int]item {
	t.Helper()
	w := p.words
	list := map[int]item{}
	cut := regexp.MustCompile(strings.Replace(regexp.QuoteMeta(w.CutTo), "%s", `(\S+)`, 1))
	for _, e := range table(p.of(pickList, ""), w.Item, w.Part, w.Size, w.Quantity, w.Where) {
		it := item{rows: regexp.MustCompile(`[FRBL]-\d+`).FindAllString(e.text(w.Where), -1)}
		var err1, err2 error
		it.number, err1 = strconv.Atoi(e.text(w.Item))
		it.count, err2 = strconv.Atoi(e.text(w.Quantity))
		lines := e.cells[w.Part]
		if err1 != nil || err2 != nil || len(lines) < 2 || list[it.number].number > 0 {
			t.Fatalf("sheet %d: a line of the pick list that is not one: %v", e.page.number, e.cells)
		}
		it.part = lines[len(lines)-1]
		if part, ok := p.project.Parts.Find(it.part); ok {
			it.fixing = part.Kind == parts.Fixing
		}
		if m := cut.FindStringSubmatch(strings.ReplaceAll(e.text(w.Size), "\u00a0", " ")); m != nil {
			it.cut = m[1]
		}
		list[it.number] = it
	}
	return list
}

// is reports whether a piece is of an item.
func (p *plan) is(it item, piece piece) bool {
	if it.part != piece.Part {
		return false
	}
	if piece.Cut == 0 {
		return true
	}
	f, ok := parseFigure(it.cut)
	return ok && p.says(f, piece.Cut)
}

// TestPickListCounts holds the pick list's quantities and rows against the unit.
func TestPickListCounts(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		pieces := 0
		for _, f := range p.unit.Faces {
			for _, r := range f.Rows {
				pieces += len(r.all())
			}
		}
		listed := 0
		for _, it := range items {
			if it.fixing {
				continue
			}
			n := 0
			rows := []string{}
			for _, f := range p.unit.Faces {
				for _, r := range f.Rows {
					before := n
					for _, piece := range r.all() {
						if p.is(it, piece) {
							n++
						}
					}
					if n > before {
						rows = append(rows, r.Address)
					}
				}
			}
			if len(rows) == 0 && len(it.rows) == 0 {
				continue // frame, stand, panels
			}
			listed += it.count
			if n != it.count || !slices.Equal(rows, it.rows) {
				t.Errorf("item %d, %s: %d in %v, the unit has %d in %v", it.number, it.part, it.count, it.rows, n, rows)
			}
		}
		if listed != pieces {
			t.Errorf("%d pieces listed, the unit has %d", listed, pieces)
		}
	})
}

// spot is one figure of the table of a face: of an item, in a row.
type spot struct {
	item    int
	address string
}

// placed is what the table of a face says of an item in a row.
type placed struct {
	slot   int
	height string
	places []string
}

var rowHead = regexp.MustCompile(`([FRBL]-\d+) [^\s,;]+ (\d+), ([^\s:;]+)(; |: )`)

// faceTable reads the table of what hangs on a face, over all its sheets.
func (p *plan) faceTable(t *testing.T, f *face) map[spot]placed {
	t.Helper()
	w := p.words
	unit := w.Inch
	if p.mm() {
		unit = w.Millimetre
	}
	where := fmt.Sprintf(w.WhereFrom, unit)
	all := map[spot]placed{}
	for _, e := range table(p.of(hardware, f.Letter), w.Item, where) {
		n, err := strconv.Atoi(e.text(w.Item))
		text := e.text(where)
		heads := rowHead.FindAllStringSubmatchIndex(text, -1)
		if err != nil || len(heads) == 0 || heads[0][0] != 0 {
			t.Fatalf("sheet %d: a line of the table that is not one: %v", e.page.number, e.cells)
		}
		open := 0 // heads that wait for their places
		for i, h := range heads {
			if text[h[8]:h[9]] == "; " {
				open++
				continue
			}
			end := len(text)
			if i+1 < len(heads) {
				end = heads[i+1][0]
			}
			places := strings.Split(strings.TrimSpace(text[h[1]:end]), " · ")
			for _, h := range heads[i-open : i+1] {
				slot, _ := strconv.Atoi(text[h[4]:h[5]])
				key := spot{n, text[h[2]:h[3]]}
				if _, twice := all[key]; twice {
					t.Errorf("sheet %d: item %d in %s twice", e.page.number, n, key.address)
				}
				all[key] = placed{slot, text[h[6]:h[7]], places}
			}
			open = 0
		}
	}
	return all
}

// TestEveryPlace rebuilds from the tables of each face where every hook,
// bracket and grip is, its slot and its height: it is the dressed unit, all
// of it and nothing else.
func TestEveryPlace(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			table := p.faceTable(t, f)
			want := 0
			for _, r := range f.Rows {
				for _, it := range items {
					var pieces []piece
					for _, piece := range r.all() {
						if p.is(it, piece) {
							pieces = append(pieces, piece)
						}
					}
					if len(pieces) == 0 {
						continue
					}
					want++
					got, ok := table[spot{it.number, r.Address}]
					h, isFigure := parseFigure(got.height)
					height := f.SlotFirst + nm(pieces[0].Slot-1)*f.SlotPitch
					if !ok || got.slot != pieces[0].Slot || !isFigure || !p.says(h, height) || !p.spots(got.places, pieces) {
						t.Errorf("%s: item %d (%s) is at %+v in the table, the unit has %d on slot %d", r.Address, it.number, it.part, got, len(pieces), pieces[0].Slot)
					}
				}
			}
			if want != len(table) {
				t.Errorf("%s: %d entries in the table, the unit has %d", f.Face, len(table), want)
			}
		}
	})
}

// spots reports whether places name all that is measured of pieces in a row;
// of those that lie on others, both ends.
func (p *plan) spots(places []string, pieces []piece) bool {
	next := func(l nm) bool {
		if len(places) == 0 {
			return false
		}
		f, ok := parseFigure(places[0])
		places = places[1:]
		return ok && p.says(f, l)
	}
	for _, piece := range pieces {
		xs := piece.measured()
		for _, x := range xs {
			if !next(x) {
				return false
			}
		}
		if len(xs) > 0 {
			continue
		}
		var from, to string
		if len(places) == 0 {
			return false
		}
		text := strings.ReplaceAll(places[0], "\u00a0", " ")
		if n, err := fmt.Sscanf(text, strings.ReplaceAll(p.words.FromTo, "\u00a0", " "), &from, &to); n != 2 || err != nil {
			return false
		}
		a, okA := parseFigure(from)
		b, okB := parseFigure(to)
		if !okA || !okB || !p.says(a, piece.Box.X0) || !p.says(b, piece.Box.X1) {
			return false
		}
		places = places[1:]
	}
	return len(places) == 0
}
