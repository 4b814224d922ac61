package draw

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
	"setwright/render/sheet"
	"setwright/render/words"
)

// desk is a job with a plan and no unit to speak of: enough for text and tables.
func desk() *Job {
	return &Job{Unit: &unit.Unit{Plan: &plan.Plan{Title: "Desk", Paper: "a4"}}, Words: words.In("en")}
}

func TestWrap(t *testing.T) {
	s := letter(plain)
	for _, c := range []struct{ text, reason string }{
		{"Hang every piece on the wire given and count the wires from the bottom", "plain words"},
		{"Unbreakablewordwithnospacesatallinitwhichgoesonandonandon ends", "a word wider than the line is broken"},
		{"54½\u00a0in and 1:12", "a number stays with its unit"},
		{"", "nothing"},
		{"one\n\nthree", "newlines are kept"},
		{"emoji \U0001F600 and tab\there", "what the faces lack is replaced"},
	} {
		for _, width := range []int64{3, 20, 47} {
			lines := wrap(c.text, s, mm*measure.Length(width))
			for _, l := range lines {
				if s.width(l) > mm*measure.Length(width) && len([]rune(l)) > 1 {
					t.Errorf("%s: %q is wider than %d mm", c.reason, l, width)
				}
			}
			if got, want := squeezed(strings.Join(lines, "")), squeezed(replaced(c.text)); got != want {
				t.Errorf("%s: %q became %q", c.reason, want, got)
			}
		}
	}
	if got := wrap("54½\u00a0in", s, 6*mm); len(got) < 2 {
		t.Skip("narrower than the word in every face")
	} else if strings.HasSuffix(got[0], " ") {
		t.Errorf("broken at a blank that does not break: %q", got)
	}
}

func squeezed(s string) string {
	return strings.NewReplacer(" ", "", "\n", "").Replace(s)
}

func replaced(s string) string {
	return strings.NewReplacer("\U0001F600", "\uFFFD", "\t", "\uFFFD").Replace(s)
}

func TestWrapTo(t *testing.T) {
	s := letter(fine)
	lines := wrapTo("one two three four five six seven eight nine ten", s, 12*mm, 2)
	if len(lines) != 2 || !strings.HasSuffix(lines[1], "…") || s.width(lines[1]) > 12*mm {
		t.Errorf("got %q: two lines, the last cut short", lines)
	}
}

// A long table goes on over sheets: the head on each, every cell once, no
// text on text, none out of its column.
func TestTableOverSheets(t *testing.T) {
	j := desk()
	s := &section{job: j, name: "long", title: "Long table"}
	tb := table{columns: []column{{tick: true}, {head: "Item", end: true}, {head: "Part", flex: 3}, {head: "Where", flex: 1}}}
	for i := range 120 {
		where := fmt.Sprintf("place%d", i)
		if i == 60 {
			where = strings.Repeat("figure ", 900) // higher than a sheet
		}
		tb.records = append(tb.records, record{cells: []string{"", fmt.Sprint(1000 + i), strings.Repeat("long name ", i%9+1), where}})
	}
	s.flowFresh().table(tb)
	found := map[string]int{}
	for _, p := range s.pages {
		for _, c := range sheet.Clashes(p.Sheet) {
			t.Errorf("%s: items %d and %d clash", p.Sheet.Name, c.A, c.B)
		}
		heads := 0
		for _, item := range p.Sheet.Items {
			if text, ok := item.(sheet.Text); ok {
				found[text.S]++
				if text.S == "Where" {
					heads++
				}
				if !within(sheet.TextBox(text), inset(p.Field, -headingHeight)) {
					t.Errorf("%s: %q leaves the field", p.Sheet.Name, text.S)
				}
			}
		}
		if heads != 1 {
			t.Errorf("%s has %d table heads", p.Sheet.Name, heads)
		}
	}
	for i := range 120 {
		if n := found[fmt.Sprint(1000+i)]; n != 1 {
			t.Errorf("row %d is there %d times", i, n)
		}
	}
	words := 0
	for text, n := range found {
		words += n * strings.Count(text, "figure")
	}
	if words != 900 {
		t.Errorf("%d of 900 words of the split cell are there", words)
	}
	if len(s.pages) < 4 {
		t.Errorf("only %d sheets", len(s.pages))
	}
}

func TestTableHeightIsWhatItTakes(t *testing.T) {
	j := desk()
	s := &section{job: j, name: "t", title: "T"}
	f := s.flowFresh()
	tb := table{columns: []column{{head: "A"}, {head: "A rather long head that wraps", flex: 1}}}
	for i := range 9 {
		tb.records = append(tb.records, record{group: "Group"}, record{cells: []string{"x", strings.Repeat("words ", 12*i)}})
	}
	want := f.y + tb.heightIn(wide(f.area))
	f.table(tb)
	if d := f.y - want; d > mm || d < -mm || len(s.pages) > 1 {
		t.Errorf("the table ends %s mm from where it was measured to, on %d sheets", d.MM(), len(s.pages))
	}
}

// Whatever the plan says, the title block keeps it in its cells.
func TestTitleBlockHoldsLongWords(t *testing.T) {
	long := "The very long name of a plan that nobody would write but somebody will, with a Donaudampfschifffahrtsgesellschaft in it"
	for _, paper := range []string{"letter", "tabloid", "a4", "a3"} {
		for _, tag := range words.Languages() {
			j := desk()
			j.Words = words.In(tag)
			j.Fingerprint = "7F3A-91C2"
			p := j.Unit.Plan
			p.Paper, p.Title, p.Season, p.By, p.Revision, p.Date = paper, long, long, long, "REVISION", "2027-02-15"
			for _, turn := range []bool{false, true} {
				size := j.paper()
				if turn {
					size = size.turned()
				}
				pg := j.newPage(size, "x", long)
				pg.Finish(188, 199)
				for _, c := range sheet.Clashes(pg.Sheet) {
					t.Errorf("%s %s: items %d and %d clash", paper, tag, c.A, c.B)
				}
				notes := wrap(j.Words.CasterLine+" "+j.Words.CautionLine, letter(fine), wide(pg.foot.notes)-2*fieldMargin)
				if letter(fine).pitch()*measure.Length(len(notes)) > high(pg.foot.notes) {
					t.Errorf("%s %s: the caution takes %d lines", paper, tag, len(notes))
				}
				for _, item := range pg.Sheet.Items {
					if text, ok := item.(sheet.Text); ok && !within(sheet.TextBox(text), size.frame()) {
						t.Errorf("%s %s: %q leaves the frame", paper, tag, text.S)
					}
				}
			}
		}
	}
}
