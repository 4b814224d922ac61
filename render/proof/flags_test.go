package proof

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/render/pdf/pdftest"
)

// numbered is the findings as the sheets number them: the gravest first, from 1.
func (p *plan) numbered() []diag.Finding {
	list := p.project.Findings.All()
	slices.SortStableFunc(list, func(a, b diag.Finding) int { return cmp.Compare(b.Level, a.Level) })
	return list
}

// flag is a finding's number on a drawing.
type flag struct {
	number int
	text   *pdftest.Text
	path   pdftest.Path
}

// flags lists the pennants of a page.
func (pg *page) flags() []flag {
	var list []flag
	for i, text := range pg.Texts {
		n, err := strconv.Atoi(text.S)
		if err != nil || !pg.inFlag(&text) {
			continue
		}
		at := slices.IndexFunc(pg.Paths, func(path pdftest.Path) bool { return path.Order+1 == text.Order })
		list = append(list, flag{n, &pg.Texts[i], pg.Paths[at]})
	}
	return list
}

// box is the room a flag takes.
func (f flag) box() pdftest.Box {
	b := pdftest.Box{Min: f.path.Points[0], Max: f.path.Points[0]}
	for _, at := range f.path.Points {
		b.Min = pdftest.Point{X: min(b.Min.X, at.X), Y: min(b.Min.Y, at.Y)}
		b.Max = pdftest.Point{X: max(b.Max.X, at.X), Y: max(b.Max.Y, at.Y)}
	}
	return b
}

// rowOf is the row of an address: of a position, or its own.
func rowOf(address string) string {
	if parts := strings.Split(address, "-"); len(parts) > 2 {
		return parts[0] + "-" + parts[1]
	}
	return address
}

// listedHere reads the line that lists the findings of a face: their numbers,
// with the rows where the flag has found no room.
func (p *plan) listedHere(pages []*page) map[int][]string {
	list := map[int][]string{}
	entry := regexp.MustCompile(`(\d+)(?: \(([^)]*)\))?`)
	head, _, _ := strings.Cut(p.words.FindingsHere, "%s")
	for _, pg := range pages {
		for _, text := range pg.Texts {
			rest, ok := strings.CutPrefix(text.S, head)
			if !ok {
				continue
			}
			for _, next := range pg.Texts { // the lines it goes on to
				if next.At.X == text.At.X && next.At.Y > text.At.Y && next.At.Y < text.At.Y+20 && regexp.MustCompile(`^\d+([ \x{00a0}]\(|,|$)`).MatchString(next.S) && next.Size == text.Size {
					rest += " " + next.S
				}
			}
			for _, m := range entry.FindAllStringSubmatch(strings.ReplaceAll(rest, "\u00a0", " "), -1) {
				n, _ := strconv.Atoi(m[1])
				list[n] = append(list[n], strings.FieldsFunc(m[2], func(r rune) bool { return r == ',' || r == ' ' })...)
			}
		}
	}
	return list
}

// TestFindingsAreFlagged wants every finding that names a place on a face
// flagged on the face's drawings, by each row it names, or listed under them
// with the row; and no flag that no finding asks for.
func TestFindingsAreFlagged(t *testing.T) {
	total, unflagged := 0, 0
	each(t, func(t *testing.T, p *plan) {
		findings := p.numbered()
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, k := range []kind{hardware, goods} {
				pages := p.of(k, f.Letter)
				if len(pages) == 0 {
					continue
				}
				drawn := map[int]int{}
				for _, pg := range pages {
					for _, fl := range pg.flags() {
						drawn[fl.number]++
					}
				}
				listed := p.listedHere(pages)
				for n, find := range findings {
					n++
					rows := flaggedRows(find, f.Letter, k)
					if len(rows) == 0 {
						if _, ok := listed[n]; ok || drawn[n] > 0 {
							t.Errorf("%s: finding %d is marked, it names nothing there: %v", f.Face, n, find.Where)
						}
						continue
					}
					if _, ok := listed[n]; !ok {
						t.Errorf("%s: finding %d (%s) is not listed", f.Face, n, find.Code)
					}
					total += len(rows)
					unflagged += len(listed[n])
					if drawn[n]+len(listed[n]) < len(rows) {
						t.Errorf("%s: finding %d (%s) names rows %v; %d flags, %v listed", f.Face, n, find.Code, rows, drawn[n], listed[n])
					}
				}
			}
		}
	})
	t.Logf("%d rows of findings, %d only listed", total, unflagged)
	if total == 0 || unflagged*4 > total {
		t.Errorf("of %d rows of findings %d have no flag", total, unflagged)
	}
}

// flaggedRows lists the rows on a face that a finding names; for goods, those
// of positions only.
func flaggedRows(find diag.Finding, letter string, k kind) []string {
	var rows []string
	for _, where := range find.Where {
		if where[:1] != letter || k == goods && !positionAddress.MatchString(where) {
			continue
		}
		if row := rowOf(where); !slices.Contains(rows, row) {
			rows = append(rows, row)
		}
	}
	return rows
}

// TestFlagsStandByTheirRows wants each flag on an elevation of hardware near
// a row that its finding names.
func TestFlagsStandByTheirRows(t *testing.T) {
	const reach = 5.0 // mm from the hardware, up or down
	each(t, func(t *testing.T, p *plan) {
		findings := p.numbered()
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				d := p.dimensions(pg)
				g := ground{d.left(), d.floor(), pg.den, f.zone(pg.bays)}
				for _, fl := range pg.flags() {
					off := 1e9
					for _, row := range flaggedRows(findings[fl.number-1], f.Letter, hardware) {
						band := g.band(f, row)
						off = min(off, max(band.Min.Y-fl.box().Max.Y, fl.box().Min.Y-band.Max.Y))
					}
					if off > reach {
						t.Errorf("sheet %d: flag %d at %.1f stands %.1f mm away from its row", pg.number, fl.number, fl.text.At, off)
					}
				}
			}
		}
	})
}

// TestFlagsHideNothing wants no flag over lettering or a balloon, nor, on
// elevations of hardware, over a dark line.
func TestFlagsHideNothing(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			if pg.kind != hardware && pg.kind != goods {
				continue
			}
			for _, fl := range pg.flags() {
				if fault := pg.hides(fl); fault != "" {
					t.Errorf("sheet %d (%s): flag %d at %.1f %s", pg.number, pg.title, fl.number, fl.text.At, fault)
				}
			}
		}
	})
}

func (pg *page) hides(fl flag) string {
	b := fl.box()
	for _, text := range pg.Texts {
		if text.Order != fl.text.Order && text.Ink.Overlaps(b) {
			return fmt.Sprintf("lies over %q", text.S)
		}
	}
	for _, c := range pg.Circles {
		round := pdftest.Box{Min: pdftest.Point{X: c.Center.X - c.Radius, Y: c.Center.Y - c.Radius}, Max: pdftest.Point{X: c.Center.X + c.Radius, Y: c.Center.Y + c.Radius}}
		if c.Radius > 2 && round.Overlaps(b) {
			return "lies over a balloon or a wheel"
		}
	}
	if pg.kind == goods {
		return ""
	}
	for _, l := range pg.Segments() {
		if l.Order != fl.path.Order && l.Pen.Color[0] < 0.4 && cuts(l, b, 0.1) {
			return fmt.Sprintf("lies over a line from %.1f to %.1f", l.From, l.To)
		}
	}
	return ""
}

// TestFlagsLeadToTheFindings follows the link of every flag, and wants the
// findings sheets to show every number once, in order.
func TestFlagsLeadToTheFindings(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		first, next := -1, 1
		for i, pg := range p.sheets {
			if title, _, _ := strings.Cut(pg.title, " ("); title == p.words.Findings {
				if first < 0 {
					first = i
				}
				for _, fl := range pg.flags() {
					if fl.number != next {
						t.Errorf("sheet %d: finding %d comes after %d", pg.number, fl.number, next-1)
					}
					next = fl.number + 1
				}
			}
		}
		if next != len(p.numbered())+1 {
			t.Errorf("%d findings are numbered, there are %d", next-1, len(p.numbered()))
		}
		for _, pg := range p.sheets {
			for _, fl := range pg.flags() {
				if !slices.ContainsFunc(pg.Links, func(l pdftest.Link) bool { return l.Page == first && inside(center(fl.text.Ink), l.Box) }) {
					t.Errorf("sheet %d: flag %d does not lead to the findings", pg.number, fl.number)
				}
			}
		}
	})
}
