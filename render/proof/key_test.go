package proof

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/render/pdf/pdftest"
)

var (
	rowAddress      = regexp.MustCompile(`^[FRBL]-\d+$`)
	positionAddress = regexp.MustCompile(`^[FRBL]-\d+-\d+$`)
)

// inBalloon reports whether a text is centred in a circle drawn for it.
func (pg *page) inBalloon(t *pdftest.Text) bool {
	for _, c := range pg.Circles {
		if c.Radius > 2 && c.Pen != nil && c.Fill != nil && near(t.Middle().X, c.Center.X, 0.1) && near(t.At.Y-capHeight(*t)/2, c.Center.Y, 0.2) {
			return true
		}
	}
	return false
}

// inFlag reports whether a text stands in a pennant, drawn just before it.
func (pg *page) inFlag(t *pdftest.Text) bool {
	return slices.ContainsFunc(pg.Paths, func(path pdftest.Path) bool {
		return len(path.Points) == 5 && path.Order+1 == t.Order && holds(path, t.Ink)
	})
}

// TestBalloonsAreInThePickList holds the balloons of each face against the
// pick list, both ways: what hangs on the face has one, and each is of a part
// that hangs there.
func TestBalloonsAreInThePickList(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		for _, f := range p.unit.Faces {
			var drawn []int
			for _, pg := range p.of(hardware, f.Letter) {
				for _, text := range pg.Texts {
					if n, err := strconv.Atoi(text.S); err == nil && pg.inBalloon(&text) {
						drawn = append(drawn, n)
					}
				}
			}
			var listed []int
			for _, it := range items {
				if slices.ContainsFunc(it.rows, func(address string) bool { return address[:1] == f.Letter }) {
					listed = append(listed, it.number)
				}
			}
			slices.Sort(drawn)
			slices.Sort(listed)
			if diff := cmp.Diff(listed, slices.Compact(drawn)); diff != "" {
				t.Errorf("%s: balloons (-pick list +drawing): %s", f.Face, diff)
			}
		}
		numbers := slices.Sorted(maps.Keys(items))
		for i, n := range numbers {
			if n != i+1 {
				t.Fatalf("items are numbered %v", numbers)
			}
		}
	})
}

// TestRowAddressesAreOnTheElevations wants the address of every row that a
// sheet shows on it, once, and no other.
func TestRowAddressesAreOnTheElevations(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				var drawn, want []string
				for _, text := range pg.Texts {
					if rowAddress.MatchString(text.S) && text.At.Y < pg.footFrom() {
						drawn = append(drawn, text.S)
					}
				}
				for _, r := range f.shown(pg.bays) {
					want = append(want, r.Address)
				}
				slices.Sort(drawn)
				slices.Sort(want)
				if diff := cmp.Diff(want, drawn); diff != "" {
					t.Errorf("sheet %d: row addresses (-unit +drawing): %s", pg.number, diff)
				}
			}
		}
	})
}

// TestAddressesAreInTheKey holds the position addresses on the elevations of
// goods against the position key, and both against the unit.
func TestAddressesAreInTheKey(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		var drawn, key, unit []string
		for _, f := range p.unit.Faces {
			seen := map[string]bool{}
			for _, pg := range p.of(goods, f.Letter) {
				for _, text := range pg.Texts {
					if !positionAddress.MatchString(text.S) {
						continue
					}
					if text.S[:1] != f.Letter {
						t.Errorf("sheet %d: %s on the %s face", pg.number, text.S, f.Face)
					}
					seen[text.S] = true
				}
			}
			drawn = append(drawn, slices.Collect(maps.Keys(seen))...)
			for _, r := range f.Rows {
				for _, position := range r.Positions {
					unit = append(unit, position.Address)
				}
			}
		}
		for _, e := range p.key() {
			key = append(key, e.text(p.words.Address))
		}
		slices.Sort(drawn)
		slices.Sort(key)
		slices.Sort(unit)
		if diff := cmp.Diff(key, drawn); diff != "" {
			t.Errorf("addresses (-key +drawings): %s", diff)
		}
		if diff := cmp.Diff(unit, key); diff != "" {
			t.Errorf("addresses (-unit +key): %s", diff)
		}
	})
}

// key reads the position key, without the names of faces that head its parts.
func (p *plan) key() []entry {
	w := p.words
	list := table(p.of(positionKey, ""), w.Address, w.Product, w.SKU, w.Facings, w.Units, p.heightHead())
	return slices.DeleteFunc(list, func(e entry) bool { return !positionAddress.MatchString(e.text(w.Address)) })
}

// heightHead is the head of the key's column of heights.
func (p *plan) heightHead() string {
	if p.mm() {
		return fmt.Sprintf(p.words.HeightIn, p.words.Millimetre)
	}
	return fmt.Sprintf(p.words.HeightIn, p.words.Inch)
}

// TestKeySaysWhatIsThere holds every line of the position key against the
// unit: product, SKU, facings, units held, height.
func TestKeySaysWhatIsThere(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w := p.words
		lines := map[string]entry{}
		for _, e := range p.key() {
			lines[e.text(w.Address)] = e
		}
		for _, f := range p.unit.Faces {
			for _, r := range f.Rows {
				for _, at := range r.Positions {
					e := lines[at.Address]
					h, ok := parseFigure(e.text(p.heightHead()))
					squeezed := func(s string) string { return strings.Join(strings.Fields(s), "") }
					if squeezed(e.text(w.Product)) != squeezed(at.Name) || squeezed(e.text(w.SKU)) != at.SKU ||
						e.text(w.Facings) != strconv.Itoa(at.Facings) || e.text(w.Units) != strconv.Itoa(at.Units) || !ok || !p.says(h, at.Height) {
						t.Errorf("%s: the key says %v, the unit %+v", at.Address, e.cells, at)
					}
				}
			}
		}
	})
}
