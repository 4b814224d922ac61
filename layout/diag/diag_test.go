package diag

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func sample() *List {
	l := &List{}
	l.Add(Finding{Level: Caution, Code: "low", At: Span{"plan.yaml", 12, 9, 4}, Message: "low", Where: []string{"F-2-3"}},
		Finding{Level: Error, Code: "unknown-part", At: Span{"plan.yaml", 12, 9, 5}, Message: `unknown part "hok-6"`,
			Expected: "a part id", Fix: `write "hook-6"`,
			Notes: []Related{{Span{"plan.yaml", 3, 8, 2}, "the parts file named here"}}},
		Finding{Level: Stop, Code: "too-heavy", At: Span{"plan.yaml", 2, 1, 1}, Message: "too heavy", Source: "common practice"},
		Finding{Level: Note, Code: "nowhere", Message: "a note of no place"},
		Finding{Level: Caution, Code: "low", At: Span{"plan.yaml", 12, 9, 4}, Message: "low", Where: []string{"F-2-3", "F-2-4"}})
	return l
}

func TestSortDedupeAndWrite(t *testing.T) {
	l := sample()
	l.Sort()
	l.Dedupe()
	var text strings.Builder
	if err := l.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	want := `note: a note of no place
plan.yaml:2:1: stop: too heavy
    source: common practice
plan.yaml:12:9: caution: low
    at: F-2-3, F-2-4
plan.yaml:12:9: error: unknown part "hok-6"
    expected: a part id
    fix: write "hook-6"
    see plan.yaml:3:8: the parts file named here
`
	if diff := cmp.Diff(want, text.String()); diff != "" {
		t.Error(diff)
	}
	if got := l.Worst(); got != Error {
		t.Errorf("worst is %v, want error", got)
	}
	if l.Count(Caution) != 1 || !l.Has(Stop) || l.Len() != 4 {
		t.Errorf("counts are wrong: %d cautions, %d in all", l.Count(Caution), l.Len())
	}
}

func TestWriteJSON(t *testing.T) {
	var none, some strings.Builder
	if err := (&List{}).WriteJSON(&none); err != nil || none.String() != "[]\n" {
		t.Errorf("an empty list writes %q, %v; want []", none.String(), err)
	}
	l := &List{}
	l.Add(Finding{Level: Stop, Code: "c", At: Span{"a<b.yaml", 1, 2, 3}, Message: "m", Where: []string{"F-1"},
		Notes: []Related{{Span{File: "b.csv"}, "n"}}})
	if err := l.WriteJSON(&some); err != nil {
		t.Fatal(err)
	}
	want := `[
  {
    "level": "stop",
    "code": "c",
    "at": {
      "file": "a<b.yaml",
      "line": 1,
      "column": 2,
      "length": 3
    },
    "message": "m",
    "where": [
      "F-1"
    ],
    "notes": [
      {
        "at": {
          "file": "b.csv"
        },
        "message": "n"
      }
    ]
  }
]
`
	if diff := cmp.Diff(want, some.String()); diff != "" {
		t.Error(diff)
	}
}

func TestDedupeLeavesTheOriginalAlone(t *testing.T) {
	places := make([]string, 1, 4)
	places[0] = "F-1"
	l := &List{}
	l.Add(Finding{Code: "x", Where: places}, Finding{Code: "x", Where: []string{"F-2"}})
	l.Dedupe()
	if got := places[:2][1]; got != "" {
		t.Errorf("deduping wrote %q into the caller's slice", got)
	}
}

func TestNear(t *testing.T) {
	parts := []string{"hook-4", "hook-6", "hook-8", "shelf-24x12", "rail-u-24"}
	for _, c := range []struct{ word, want, reason string }{
		{"hok-6", "hook-6", "a letter dropped"},
		{"hoook-6", "hook-6", "a letter doubled"},
		{"hook6", "hook-6", "a dash forgotten"},
		{"hoko-6", "hook-6", "neighbours swapped count once"},
		{"HOOK-6", "hook-6", "capitals do not count"},
		{"hook-5", "hook-4", "of equally near ones the first"},
		{"shelf-24-12", "shelf-24x12", "a letter changed"},
		{"rail-24", "rail-u-24", "two letters of seven"},
		{"bracket", "", "nothing near"},
		{"", "", "nothing written"},
		{"x", "", "a single letter is like everything"},
		{strings.Repeat("hook-", 1000), "", "absurdly long"},
	} {
		if got := Near(c.word, parts); got != c.want {
			t.Errorf("Near(%q) = %q, want %q: %s", c.word, got, c.want, c.reason)
		}
	}
}

func TestOneLine(t *testing.T) {
	for _, c := range []struct{ in, want, reason string }{
		{"café ½ שלום", "café ½ שלום", "letters of any script stay"},
		{"a\nb\tc", "a<U+000A>b<U+0009>c", "no line or tab breaks out"},
		{"\x1b[31m", "<U+001B>[31m", "no terminal sequence"},
		{"a\u202eb", "a<U+202E>b", "no override of the writing direction"},
		{"\xff", "<U+FFFD>", "not UTF-8"},
	} {
		if got := OneLine(c.in); got != c.want {
			t.Errorf("OneLine(%q) = %q, want %q: %s", c.in, got, c.want, c.reason)
		}
	}
}
