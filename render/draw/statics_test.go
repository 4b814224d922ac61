package draw

import (
	"math"
	"strings"
	"testing"

	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/render/words"
)

func TestPhysicsInPrint(t *testing.T) {
	inch, metric := &Job{Words: words.In("en")}, &Job{Words: words.In("fr"), system: measure.Millimetres}
	for _, c := range []struct{ got, want, reason string }{
		{inch.force(4.4482216152605), "1.0 lb", "the pound-force, exactly (NIST SP 811)"},
		{inch.force(444.82216152605), "100 lb", "no decimal from 100 on"},
		{metric.force(9.80665), "9,8 N", "a kilogram's weight; French writes a comma"},
		{metric.force(12345), "12 345 N", "more than four digits in threes"},
		{metric.force(1234), "1234 N", "four digits together (ISO 80000-1)"},
		{inch.kilos(0.45359237), "1.0 lb", "the international pound, exactly"},
		{inch.distance(25.4), "1.0 in", "the inch, exactly"},
		{inch.bend(3.175), "0.125 in", "an eighth of an inch"},
		{inch.moment(112.98482902762), "1.0 in·lb", "inch times pound-force"},
		{metric.moment(1500), "1,5 N·m", "newton metres are thousands of newton millimetres"},
		{inch.rigidity(2869.8146572), "1.0 lb·in²", "pound-force times a square inch"},
		{inch.stress(2250), "326 000 lb/in²", "2250 N/mm² is 326 ksi (ANSI A208.1, M-2)"},
		{inch.share(50, 0), dash, "no rating known"},
		{inch.share(50, 200), "25 %", "a quarter of the rating"},
		{inch.rating(444.82216152605, true), "100 lb*", "an assumed rating is marked"},
		{inch.ratio(144, 1), "144", "span over sag"},
		{inch.ratio(144, 0), dash, "what does not sag has none"},
		{inch.decimal(-0.04, 1), "0.0", "no minus before nothing"},
		{inch.decimal(-12345.5, 1), "−12 345.5", "a minus as type sets it"},
		{inch.decimal(math.Inf(1), 1), dash, "what has no end has no figure"},
	} {
		if got := strings.ReplaceAll(c.got, "\u00a0", " "); got != c.want {
			t.Errorf("got %q, want %q: %s", got, c.want, c.reason)
		}
	}
}

func TestDeeper(t *testing.T) {
	for _, c := range []struct{ sag, most, want float64 }{
		{1, 8, 5}, {0.9, 8, 5}, {0.8, 8, 10}, {0.04, 8, 200}, {7, 8, 1}, {30, 8, 1}, {0, 8, 1},
	} {
		if got := deeper(c.sag, c.most); got != c.want {
			t.Errorf("a sag of %g mm is drawn %g times deeper, want %g: the most that is no deeper than %g mm, never shallower than it is", c.sag, got, c.want, c.most)
		}
	}
}

func TestAddressesInShort(t *testing.T) {
	for _, c := range []struct{ list, want, reason string }{
		{"F-1-1 F-1-2 F-1-3", "F-1-1–3", "a run"},
		{"F-1-1 F-1-2 F-2-3", "F-1-1, F-1-2, F-2-3", "two are no run; a run ends with its row"},
		{"F-1-9 F-1-10 F-1-11 F-1-13", "F-1-9–11, F-1-13", "a gap ends a run; ten follows nine"},
		{"F-1 F-2 F-3", "F-1, F-2, F-3", "rows are listed one by one"},
		{"F-1-3 F-1-2 F-1-1", "F-1-3, F-1-2, F-1-1", "only what rises is a run"},
		{"", "", "none"},
	} {
		if got := addresses(strings.Fields(c.list)); got != c.want {
			t.Errorf("%q: got %q, want %q: %s", c.list, got, c.want, c.reason)
		}
	}
}

// Edges are lettered as they come, and named for where they lie, whichever way
// round the footprint they run.
func TestTipEdgesAreNamed(t *testing.T) {
	j := &Job{Words: words.In("en")}
	corner := [][2]float64{{-10, -5}, {10, -5}, {10, 5}, {-10, 5}}
	for _, backwards := range []bool{false, true} {
		a := &check.Assessment{}
		for range 2 { // as for two states
			for i := range corner {
				from, to := corner[i], corner[(i+1)%4]
				if backwards {
					from, to = to, from
				}
				a.Tips = append(a.Tips, check.TipCase{FromX: from[0], FromY: from[1], ToX: to[0], ToY: to[1]})
			}
		}
		var names []string
		for _, e := range j.tipEdges(a) {
			names = append(names, e.name)
		}
		if got, want := strings.Join(names, "; "), "a, front; b, right; c, back; d, left"; got != want {
			t.Errorf("backwards %v: got %s, want %s", backwards, got, want)
		}
	}
}

// The gravest come first, those of one level as they came.
func TestFindingsAreGraded(t *testing.T) {
	given := []diag.Finding{{Level: diag.Note, Code: "a"}, {Level: diag.Stop, Code: "b"}, {Level: diag.Caution, Code: "c"}, {Level: diag.Stop, Code: "d"}, {Level: diag.Note, Code: "e"}}
	got := ""
	for _, f := range graded(given) {
		got += f.Code
	}
	if got != "bdcae" {
		t.Errorf("got %s, want bdcae", got)
	}
	if given[0].Code != "a" {
		t.Error("the caller's findings were changed")
	}
}
