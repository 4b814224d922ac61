package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/seasons"
	"setwright/layout/unit"
	"setwright/render/words"
)

// SeasonsJob is what the strip of a timeline is drawn from: a Job in the manner
// of its last pack, without a unit, and the timeline.
type SeasonsJob struct {
	*Job
	line *seasons.Timeline
}

// NewSeasonsJob gathers what the strip needs of a timeline of one pack at least.
func NewSeasonsJob(t *seasons.Timeline) *SeasonsJob {
	last := t.Manner()
	w := words.In(last.Language)
	head := &plan.Plan{Title: w.Seasons, Season: years(t), By: last.By,
		Measure: last.System(), Paper: last.Paper, Language: last.Language}
	if day, ok := seasons.ParseDay(last.Date); ok {
		head.Date = day.String()
	}
	j := &Job{Unit: &unit.Unit{Plan: head}, Words: w, system: head.Measure, foot: w.SeasonsFoot}
	for _, u := range t.Units {
		for _, e := range u.Entries {
			for _, f := range e.Faces {
				for _, g := range f.Goods {
					j.families = append(j.families, g.Family)
				}
			}
		}
	}
	slices.Sort(j.families)
	j.families = slices.Compact(j.families)
	return &SeasonsJob{j, t}
}

// years are the seasons from the first to the last that was up.
func years(t *seasons.Timeline) string {
	first, last := t.Manner(), t.Manner()
	for _, u := range t.Units {
		if shown := u.Shown(); len(shown) > 0 && shown[0].Date < first.Date {
			first = shown[0].Pack
		}
	}
	if first.Season == last.Season || first.Season == "" || last.Season == "" {
		return last.Season
	}
	return first.Season + " – " + last.Season
}

// strip is how packs are drawn on one sheet: a lane for each unit under one axis
// of time, in it a bar and a column for each pack, the newest if not all fit.
type strip struct {
	*SeasonsJob
	paper  paper
	den    int64
	across int    // faces beside each other
	lanes  []lane // in the order of the timeline
	drawn  int    // packs

	from, to seasons.Day // of the axis
}

// lane is what is drawn of one unit.
type lane struct {
	unit    *seasons.Unit
	entries []seasons.Entry
	first   int // number of the first of them
	column  measure.Length
	rows    []measure.Length // height of each row of faces, captions left out
}

const (
	axisRoom   = 9 * mm
	laneHead   = 6500 * micron
	laneBar    = 4500 * micron
	leaderRoom = 6 * mm
	columnGap  = 5 * mm
	smallName  = 3500 * micron // over a face
	smallFloor = 2 * mm        // under it
	laneGap    = 5 * mm
	notDrawn   = 5 * mm
	titleLines = 2
	countLines = 3
)

// Strip draws the whole timeline on one sheet.
func (j *SeasonsJob) Strip() *Page {
	best := j.best()
	s := &section{job: j.Job, name: "seasons", title: j.Words.Seasons, under: j.Words.SeasonsUnder}
	p := s.page(best.paper)
	if best.drawn == 0 {
		text := j.Words.NothingDated
		if j.total() > 0 {
			text = best.left()
		}
		p.paragraph(p.Field.Min.X, p.Field.Min.Y, wide(p.Field), text, letter(plain))
		return p
	}
	p.scale = j.scaleName(best.den)
	best.draw(p)
	return p
}

// total is how many packs there are to draw.
func (j *SeasonsJob) total() int {
	n := 0
	for _, u := range j.line.Units {
		n += len(u.Shown())
	}
	return n
}

// best is the strip at the largest scale that shows every pack, or else the one
// that shows the most of them: at a scale that is still legible if one shows any.
func (j *SeasonsJob) best() strip {
	const legible = 100
	up, all := j.paper(), j.total()
	best := strip{SeasonsJob: j, paper: up.turned()}
	for _, den := range j.scales() {
		if best.drawn == all || best.drawn > 0 && den > legible {
			break
		}
		for _, p := range []paper{up.turned(), up} {
			for _, across := range []int{2, 4, 1} {
				s := strip{SeasonsJob: j, paper: p, den: den, across: across}
				if s.fill(); s.drawn > best.drawn {
					best = s
				}
			}
		}
	}
	return best
}

// fill finds out what fits on the sheet: the units that changed last, of each
// the newest packs.
func (s *strip) fill() {
	units := slices.Clone(s.line.Units)
	last := func(u *seasons.Unit) seasons.Day {
		if shown := u.Shown(); len(shown) > 0 {
			return shown[len(shown)-1].From
		}
		return -seasons.Never
	}
	slices.SortStableFunc(units, func(a, b *seasons.Unit) int { return cmp.Compare(last(b), last(a)) })
	field := s.field(s.paper)
	room := high(field) - axisRoom - notDrawn
	for _, u := range units {
		l := s.lane(u, wide(field))
		if h := l.height(); len(l.entries) > 0 && h <= room {
			room -= h + laneGap
			s.lanes = append(s.lanes, l)
			s.drawn += len(l.entries)
		}
	}
	slices.SortStableFunc(s.lanes, func(a, b lane) int {
		return cmp.Compare(slices.Index(s.line.Units, a.unit), slices.Index(s.line.Units, b.unit))
	})
	s.span()
}

// lane takes as many of the newest packs of a unit as fit beside each other.
func (s *strip) lane(u *seasons.Unit, width measure.Length) lane {
	l := lane{unit: u}
	shown := u.Shown()
	for n := 1; n <= len(shown); n++ {
		e := &shown[len(shown)-n]
		column := max(l.column, s.columnOf(e, len(shown)-n+1))
		if column*measure.Length(n)+columnGap*measure.Length(n-1) > width {
			break
		}
		l.column, l.entries, l.first = column, shown[len(shown)-n:], len(shown)-n+1
		for i, row := range s.rows(e) {
			if i == len(l.rows) {
				l.rows = append(l.rows, 0)
			}
			for _, f := range row {
				l.rows[i] = max(l.rows[i], s.small(top(f)))
			}
		}
	}
	return l
}

// height is what a lane takes.
func (l *lane) height() measure.Length {
	s := letter(fine)
	h := laneHead + laneBar + leaderRoom + letter(plain).pitch() + s.pitch()*(1+titleLines+countLines) + 1*mm
	for _, row := range l.rows {
		h += smallName + row + smallFloor
	}
	return h
}

// columnOf is how wide the column of a pack must be.
func (s *strip) columnOf(e *seasons.Entry, number int) measure.Length {
	most := letter(plain).strong().width(strconv.Itoa(number)) + 2*mm + letter(fine).width(period(e))
	for _, line := range s.figures(e) {
		most = max(most, letter(fine).width(line))
	}
	for _, row := range s.rows(e) {
		w := faceGap * measure.Length(len(row)-1)
		for _, f := range row {
			w += s.small(f.Width)
		}
		most = max(most, w)
	}
	return most
}

// rows are the dressed faces of a pack, or all if none is, in rows.
func (s *strip) rows(e *seasons.Entry) [][]*archive.Face {
	var dressed, all []*archive.Face
	for i := range e.Faces {
		f := &e.Faces[i]
		if all = append(all, f); len(f.Hardware)+len(f.Goods) > 0 {
			dressed = append(dressed, f)
		}
	}
	if len(dressed) > 0 {
		all = dressed
	}
	return slices.Collect(slices.Chunk(all, s.across))
}

// small is a length of a summary's drawing on paper.
func (s *strip) small(tenths int) measure.Length {
	return over(measure.Length(tenths)*measure.Millimetre/10, s.den)
}

// top is the height of the highest thing on a face.
func top(f *archive.Face) int {
	most := 0
	boxes := [][]archive.Box{f.Standing, f.Panels, f.Hardware}
	for _, g := range f.Goods {
		boxes = append(boxes, g.Fronts)
	}
	for _, list := range boxes {
		for _, b := range list {
			most = max(most, b[3])
		}
	}
	return most
}

// period is when a pack was up, open if nothing ends it.
func period(e *seasons.Entry) string {
	return strings.TrimSpace(e.From.String() + " – " + e.To.String())
}

// figures are a pack in figures, with what changed from the one before.
func (s *strip) figures(e *seasons.Entry) []string {
	w := s.Words
	found := fmt.Sprintf(w.FoundCounts, e.Count(diag.Stop), e.Count(diag.Caution), e.Count(diag.Note))
	if c := e.Change; c != nil {
		return []string{fmt.Sprintf(w.PiecesThen, e.Pieces(), c.PiecesIn, c.PiecesOut),
			fmt.Sprintf(w.ProductsThen, len(e.Products), c.ProductsIn, c.ProductsOut, c.Moved), found}
	}
	return []string{fmt.Sprintf(w.PiecesFirst, e.Pieces()), fmt.Sprintf(w.ProductsFirst, len(e.Products)), found}
}

// left says what is not drawn, "" if everything is.
func (s *strip) left() string {
	w := s.Words
	earlier, units := 0, len(s.line.Units)-len(s.lanes)
	for _, l := range s.lanes {
		earlier += l.first - 1
	}
	count := map[seasons.State]int{}
	for _, u := range s.line.Units {
		for _, e := range u.Entries {
			count[e.State]++
		}
	}
	var words []string
	for _, c := range []struct {
		format string
		n      int
	}{{w.EarlierPacks, earlier}, {w.OtherUnits, units}, {w.SupersededPacks, count[seasons.Superseded]}, {w.CopiedPacks, count[seasons.Copy]}, {w.UndatedPacks, count[seasons.Undated]}} {
		if c.n > 0 {
			words = append(words, fmt.Sprintf(c.format, c.n))
		}
	}
	if words == nil {
		return ""
	}
	return fmt.Sprintf(w.NotDrawn, strings.Join(words, "; "))
}
