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

	"setwright/layout/list"
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
				if !it.fixing && slices.ContainsFunc(it.rows, func(address string) bool { return address[:1] == f.Letter }) {
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
		for _, c := range p.cards(t) {
			key = append(key, c.address)
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

// card is one position of the key: what stands within its outline.
type card struct {
	page    *page
	box     pdftest.Box
	address string
	name    string   // its lines as one
	small   []string // the fine lettering under it: SKU, a number without bars
	figures map[string]string
}

// cards reads the position key: every outline with an address at its top.
func (p *plan) cards(t *testing.T) (list []card) {
	t.Helper()
	for _, pg := range p.of(positionKey, "") {
		addresses := 0
		for _, text := range pg.Texts {
			if positionAddress.MatchString(text.S) {
				addresses++
			}
		}
		before := len(list)
		for _, box := range pg.outlines(0.18) {
			if c, ok := p.card(pg, box); ok {
				list = append(list, c)
			}
		}
		if len(list)-before != addresses {
			t.Errorf("sheet %d: %d cards, %d addresses", pg.number, len(list)-before, addresses)
		}
	}
	return list
}

// card reads what stands within an outline, if that is a card's.
func (p *plan) card(pg *page, box pdftest.Box) (card, bool) {
	c := card{page: pg, box: box, figures: map[string]string{}}
	var at *pdftest.Text
	within := pg.within(box)
	for i, text := range within {
		if positionAddress.MatchString(text.S) && capHeight(text) > 3 {
			at, c.address = &within[i], text.S
		}
	}
	if at == nil {
		return c, false
	}
	for _, text := range within {
		switch {
		case near(text.At.X, at.At.X, exact) && !bold(text) && text.Color == at.Color && capHeight(text) > 2:
			c.name = strings.TrimSpace(c.name + " " + text.S)
		case near(text.At.X, at.At.X, exact) && !bold(text) && text.Color == at.Color:
			c.small = append(c.small, text.S)
		case text.Color != at.Color: // a label, its figure under it
			for _, figure := range within {
				if bold(figure) && near(figure.At.X, text.At.X, exact) && figure.At.Y > text.At.Y && figure.At.Y < text.At.Y+2*figure.Size {
					c.figures[text.S] = figure.S
				}
			}
		}
	}
	return c, true
}

// within lists the texts inside a box, from the top down as they were drawn.
func (pg *page) within(box pdftest.Box) (list []pdftest.Text) {
	for _, text := range pg.Texts {
		if inside(text.Ink.Min, box) && inside(text.Ink.Max, box) {
			list = append(list, text)
		}
	}
	return list
}

// heightHead is what the key calls a height.
func (p *plan) heightHead() string {
	if p.mm() {
		return fmt.Sprintf(p.words.HeightIn, p.words.Millimetre)
	}
	return fmt.Sprintf(p.words.HeightIn, p.words.Inch)
}

// reorders is when each position wants more, by address.
func (p *plan) reorders() map[string]int {
	at := map[string]int{}
	for _, k := range list.Key(p.project.Unit) {
		at[k.Position.Address] = k.Reorder
	}
	return at
}

func squeezed(s string) string { return strings.Join(strings.Fields(s), "") }

// TestKeySaysWhatIsThere holds every card of the position key against the unit:
// product, SKU, facings, units held, height; and when to bring more against
// the list. The cards come in walking order.
func TestKeySaysWhatIsThere(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w, reorder := p.words, p.reorders()
		cards := p.cards(t)
		for _, f := range p.unit.Faces {
			for _, r := range f.Rows {
				for _, at := range r.Positions {
					if len(cards) == 0 {
						t.Fatalf("the key ends before %s", at.Address)
					}
					c := cards[0]
					cards = cards[1:]
					h, ok := parseFigure(c.figures[p.heightHead()])
					if c.address != at.Address || squeezed(c.name) != squeezed(at.Name) || len(c.small) == 0 || !strings.HasPrefix(squeezed(strings.Join(c.small, "")), squeezed(at.SKU)) ||
						c.figures[w.Facings] != strconv.Itoa(at.Facings) || c.figures[w.Units] != strconv.Itoa(at.Units) ||
						c.figures[w.ReorderAt] != strconv.Itoa(reorder[at.Address]) || !ok || !p.says(h, at.Height) || len(c.figures) != 4 {
						t.Errorf("%s: the key says %+v, the unit %+v", at.Address, c, at)
					}
				}
			}
		}
		if len(cards) > 0 {
			t.Errorf("cards of no position: %+v", cards)
		}
	})
}

// TestKeyIsCompact wants ten positions and more on every full sheet of a
// sample's key, whatever its rows.
func TestKeyIsCompact(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		pages, cards := p.of(positionKey, ""), p.cards(t)
		if p.sample() && len(cards) > 20 && len(cards) < 10*(len(pages)-1) {
			t.Errorf("%d positions on %d sheets", len(cards), len(pages))
		}
	})
}

// TestCardsShowTheirGoods wants a thumbnail in every card with the proportions
// of the product.
func TestCardsShowTheirGoods(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		shapes := map[string]float64{}
		for _, f := range p.project.Unit.Faces {
			for _, r := range f.Rows {
				for _, at := range r.Positions {
					shapes[at.Address] = float64(at.Product.Width) / float64(at.Product.Height)
				}
			}
		}
		for _, c := range p.cards(t) {
			shape := shapes[c.address]
			if shape < 0.1 || shape > 10 {
				continue // drawn no thinner than a millimetre
			}
			found := false
			for _, box := range c.page.outlines(0.18) {
				wide, high := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
				found = found || box != c.box && inside(box.Min, c.box) && inside(box.Max, c.box) && near(wide/high, shape, 0.01*shape)
			}
			if !found {
				t.Errorf("sheet %d: %s has no thumbnail %.3f times as wide as high", c.page.number, c.address, shape)
			}
		}
	})
}
