package proof

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestBookmarks wants a bookmark for every sheet, in order, that says what
// the sheet's title block says.
func TestBookmarks(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		if len(p.doc.Outlines) != len(p.sheets) {
			t.Fatalf("%d bookmarks, %d sheets", len(p.doc.Outlines), len(p.sheets))
		}
		for i, b := range p.doc.Outlines {
			if b.Page != i || !sameTitle(b.Title, p.sheets[i].title) {
				t.Errorf("bookmark %d, %q, leads to sheet %d, %q", i+1, b.Title, b.Page+1, p.sheets[i].title)
			}
		}
	})
}

// sameTitle allows for one that was cut short.
func sameTitle(a, b string) bool {
	a, _, _ = strings.Cut(a, "…")
	b, _, _ = strings.Cut(b, "…")
	return a != "" && b != "" && (strings.HasPrefix(a, b) || strings.HasPrefix(b, a))
}

// TestCoverIndex follows the lines of the cover's index: each leads to the
// sheet it names, with the scale it names, and together they list every sheet
// but the cover, once and in order.
func TestCoverIndex(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		next := 0
		for _, pg := range p.sheets {
			if pg.title != p.words.Cover && !strings.HasPrefix(pg.title, p.words.Cover+" (") {
				break
			}
			next = max(next, pg.number+1)
			for _, link := range pg.Links {
				from, to, title, scale := pg.indexLine(link)
				if from != next || link.Page != from-1 || to < from || to > len(p.sheets) {
					t.Errorf("the line %q of sheets %d to %d leads to sheet %d; sheet %d is next", title, from, to, link.Page+1, next)
					continue
				}
				first := p.sheets[from-1]
				want := ""
				if first.den > 0 {
					want = fmt.Sprintf("1:%g", first.den)
				}
				if !sameTitle(first.title, title) || scale != want {
					t.Errorf("the line %q, scale %q, leads to %q, scale %q", title, scale, first.title, want)
				}
				next = to + 1
			}
		}
		if next != len(p.sheets)+1 {
			t.Errorf("the index ends before sheet %d of %d", next, len(p.sheets))
		}
	})
}

var sheetRange = regexp.MustCompile(`^(\d+)(?:–(\d+))?$`)

// indexLine reads the numbers, the title and the scale in a link's box.
func (pg *page) indexLine(link pdftest.Link) (from, to int, title, scale string) {
	for _, t := range pg.Texts {
		if !t.Ink.Overlaps(link.Box) || t.At.Y > link.Box.Max.Y {
			continue
		}
		switch n := sheetRange.FindStringSubmatch(t.S); {
		case n != nil && from == 0:
			fmt.Sscan(n[1], &from)
			to = from
			if n[2] != "" {
				fmt.Sscan(n[2], &to)
			}
		case strings.HasPrefix(t.S, "1:"):
			scale = t.S
		default:
			title = strings.TrimSpace(title + " " + t.S)
		}
	}
	return from, to, title, scale
}

// TestBalloonsLead wants every balloon to be a link to the pick list, and no
// link anywhere to lead out of the pack.
func TestBalloonsLead(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			for _, link := range pg.Links {
				if link.Page < 0 || link.Page >= len(p.sheets) {
					t.Errorf("sheet %d: a link to sheet %d", pg.number, link.Page+1)
				}
			}
			for _, text := range pg.Texts {
				if pg.kind == hardware && pg.inBalloon(&text) && !pg.leads(text, p.of(pickList, "")[0].number) {
					t.Errorf("sheet %d: balloon %s is no link to the pick list", pg.number, text.S)
				}
			}
		}
	})
}

func (pg *page) leads(t pdftest.Text, number int) bool {
	for _, link := range pg.Links {
		if link.Page == number-1 && link.Box.Overlaps(t.Ink) {
			return true
		}
	}
	return false
}

// TestDocument wants what readers and screen readers look for: title,
// language, the plan's mark among the keywords, no clock's date, fonts
// embedded with a map to Unicode.
func TestDocument(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		d := p.doc
		if d.Info["Title"] != p.unit.Title || d.Language != p.words.Tag || !strings.Contains(d.Info["Keywords"], p.unit.Fingerprint) || !d.ShowTitle {
			t.Errorf("document properties: %q, language %q", d.Info, d.Language)
		}
		if day := strings.ReplaceAll(p.unit.Date, "-", ""); day != "" && !strings.HasPrefix(d.Info["CreationDate"], "D:"+day) {
			t.Errorf("created %s, the plan is of %s", d.Info["CreationDate"], p.unit.Date)
		}
		if len(d.Fonts) == 0 {
			t.Error("no fonts")
		}
		for _, f := range d.Fonts {
			if !f.Embedded || !f.Unicode {
				t.Errorf("font %s: embedded %v, with a map to Unicode %v", f.Name, f.Embedded, f.Unicode)
			}
		}
	})
}
