package parts

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

const cutHouse = `measure: in
stock:
  board-oak: {name: Oak board, grain: true, sheets: [{length: 96, width: 48}]}
  tube: {name: Tube, bars: {length: 120}}
parts:
  hang-tube: {like: rail-u-24, name: Hang tube 46, cut: {from: tube, length: 46}}
  shelf-oak: {like: shelf-24x12, name: Oak shelf, cut: {from: board-oak}}
`

func withHouse(t testing.TB, text string) *List {
	t.Helper()
	var found diag.List
	list := Load(builtIn(t), "house.yaml", []byte(text), &found)
	for _, f := range found.All() {
		t.Fatalf("%s: %s", f.At, f.Message)
	}
	return list
}

// handText is what is on hand as lines a person can read.
func handText(lines []OnHand) []string {
	var texts []string
	for _, h := range lines {
		id, size := "", ""
		if h.Part != nil {
			id = "part " + h.Part.ID
		} else {
			id = "stock " + h.Stock.ID
		}
		if h.Length > 0 {
			size = " " + StockSize{Length: h.Length, Width: h.Width}.Text(measure.Inches)
		}
		texts = append(texts, fmt.Sprintf("%d %s%s @%d", h.Count, id, size, h.At.Line))
	}
	return texts
}

func findingText(found *diag.List) []string {
	var texts []string
	for _, f := range found.All() {
		text := fmt.Sprintf("%d:%d %v %s: %s", f.At.Line, f.At.Col, f.Level, f.Code, f.Message)
		for _, more := range []string{f.Expected, f.Fix} {
			if more != "" {
				text += "; " + more
			}
		}
		texts = append(texts, text)
	}
	return texts
}

func TestLoadOnHand(t *testing.T) {
	list := withHouse(t, cutHouse)
	const head = "part,length,width,on hand\n"
	for _, c := range []struct {
		text  string
		lines []string
		found []string
		why   string
	}{
		{head + "hook-6,,,40\n", []string{"40 part hook-6 @2"}, nil, "pieces of a part"},
		{"on hand,part\n40,hook-6\n", []string{"40 part hook-6 @2"}, nil, "columns in any order, those of sizes left out"},
		{head + "hook-6,,,0\n", []string{"0 part hook-6 @2"}, nil, "none left is worth saying"},
		{head + "strip-ticket,96in,,3\nstrip-ticket,37in,,1\n", []string{"3 stock strip-ticket 96 in @2", "1 stock strip-ticket 37 in @3"}, nil, "bars and an off-cut"},
		{head + "board-oak,8ft,4ft,2\n", []string{"2 stock board-oak 96 x 48 in @2"}, nil, "sheets"},
		{"part,length (mm),on hand\ntube,2540,1\n", []string{"1 stock tube 100 in @2"}, nil, "a unit in the head"},
		{head + "tube,100,,1\n", []string{"1 stock tube 100 in @2"}, nil, "a bare number is in the plan's measure"},
		{head + "hang-tube,,,2\nhang-tube,50,,1\n", []string{"2 part hang-tube @2", "1 stock tube 50 in @3"}, nil, "a part cut from a bar: cut already, or the bar"},
		{head + "shelf-oak,,,2\n", []string{"2 part shelf-oak @2"}, nil, "a part cut from a sheet, cut already"},
		{head + "\"hook-6\",,,\"40\"\n\n", []string{"40 part hook-6 @2"}, nil, "quoted cells, a blank line"},
		{"part;length;on hand\nstrip-ticket;37,5;2\n", []string{"2 stock strip-ticket 37 1/2 in @2"},
			[]string{"0:0 note csv-dialect: this file is read with semicolons between its cells and decimal commas"}, "semicolons and a decimal comma"},

		{head + "hook-6,,,40\nhook-6,,,5\n", []string{"45 part hook-6 @2"},
			[]string{"3:1 note twice-on-hand: hook-6 is listed twice: the two are added up to 45"}, "a part twice"},
		{head + "tube,100,,1\nhang-tube,100in,,1\n", []string{"2 stock tube 100 in @2"},
			[]string{"3:1 note twice-on-hand: hang-tube is listed twice: the two are added up to 2"}, "stock twice, by two names"},
		{head + "hok-6,,,40\n", nil, []string{`2:1 note unknown-part: the parts list knows no "hok-6": what is on hand of it is left out; write "hook-6"`}, "a slip of the pen"},
		{head + "tubes,50,,40\n", nil, []string{`2:1 note unknown-part: the parts list knows no "tubes": what is on hand of it is left out; write "tube"`}, "a slip in the name of stock"},
		{head + "hook-6,6in,,4\n", []string{"4 part hook-6 @2"},
			[]string{"2:1 note unused-size: pieces of hook-6 are all of one size: the one given here is left out; leave length and width blank"}, "a hook is not cut"},
		{head + "tube,50,2,1\n", []string{"1 stock tube 50 in @2"}, []string{"2:1 note unused-size: tube is bars: the width given here is left out; leave the width blank"}, "a bar has no width"},

		{head + "tube,,,1\n", nil, []string{"2:1 error missing-cell: the length of each bar of tube is not given; a length, such as 96in"}, "how long is the bar?"},
		{head + "strip-ticket,,,1\n", nil, []string{"2:1 error missing-cell: the length of each bar of strip-ticket is not given; a length, such as 96in"}, "a strip has no length of its own"},
		{head + "board-oak,96,,1\n", nil, []string{"2:1 error missing-cell: the size of each sheet of board-oak is not given; its length, along the grain, and its width"}, "how wide is the sheet?"},
		{head + "board-oak,,48,1\n", nil, []string{"2:1 error missing-cell: the size of each sheet of board-oak is not given; its length, along the grain, and its width"}, "how long is the sheet?"},
		{head + "hook-6,,,-1\n", nil, []string{`2:10 error bad-number: "-1" is out of range; a whole number from 0 to 1000000`}, "less than none"},
		{head + "hook-6,,,1000001\n", nil, []string{`2:10 error bad-number: "1000001" is out of range; a whole number from 0 to 1000000`}, "too many"},
		{head + "hook-6,,,some\n", nil, []string{`2:10 error bad-number: "some" is not a whole number; a whole number from 0 to 1000000`}, "no number"},
		{head + "hook-6,,,1.5\n", nil, []string{`2:10 error bad-number: "1.5" is not a whole number; a whole number from 0 to 1000000`}, "half a hook"},
		{head + "hook-6,,,\n", nil, []string{`2:1 error missing-key: "on hand" is missing here`}, "no count"},
		{head + ",,,3\n", nil, []string{`2:1 error missing-key: "part" is missing here`}, "no part"},
		{head + "tube,long,,1\n", nil, []string{`2:6 error bad-length: "long" is not a length; a length, such as 54in, 4ft 6in or 1372mm; a bare number is in inches`}, "no length"},
		{head + "tube,0,,1\n", nil, []string{"2:6 error bad-length: this length is zero; a length greater than zero"}, "no length at all"},
		{head + "tube,-5,,1\n", nil, []string{`2:6 error bad-length: "-5" is negative; a length, such as 54in, 4ft 6in or 1372mm; a bare number is in inches`}, "a negative length"},
		{head + "board-oak,96,wide,1\n", nil, []string{`2:14 error bad-length: "wide" is not a length; a length, such as 54in, 4ft 6in or 1372mm; a bare number is in inches`}, "no width"},
		{head + "tube,long,,\n", nil, []string{`2:1 error missing-key: "on hand" is missing here`, `2:6 error bad-length: "long" is not a length; a length, such as 54in, 4ft 6in or 1372mm; a bare number is in inches`}, "two faults of one line are both said"},
		{"part,length\nhook-6,\n", nil, []string{`1:1 error missing-column: there is no column "on hand"; a header row with part, on hand`}, "no column of counts"},
		{"", nil, []string{"1:1 error empty-file: this file is empty; a header row"}, "nothing"},
	} {
		var found diag.List
		lines := LoadOnHand(list, "stock.csv", []byte(c.text), measure.Inches, &found)
		if diff := cmp.Diff(c.lines, handText(lines)); diff != "" {
			t.Errorf("%s: on hand (-want +got):\n%s", c.why, diff)
		}
		if diff := cmp.Diff(c.found, findingText(&found)); diff != "" {
			t.Errorf("%s: findings (-want +got):\n%s", c.why, diff)
		}
	}
}

func FuzzLoadOnHand(f *testing.F) {
	f.Add("part,length,width,on hand\nhook-6,,,40\nstrip-ticket,96in,,3\nboard-oak,96,48,1\nhook-6,,,2\n")
	f.Add("part;on hand;length (mm)\ntube;3;2540,5\nhang-tube;1;\n")
	f.Add("on hand,part\n-1,hok-6\n1e9,tube\n")
	list := withHouse(f, cutHouse)
	f.Fuzz(func(t *testing.T, text string) {
		var found diag.List
		for _, h := range LoadOnHand(list, "stock.csv", []byte(text), measure.Inches, &found) {
			if (h.Part == nil) == (h.Stock == nil) || h.Count < 0 || h.At.Line < 2 {
				t.Fatalf("%q: kept %+v", text, h)
			}
			if h.Part != nil && h.Length+h.Width != 0 || h.Stock != nil && (h.Length <= 0 || (h.Width > 0) != h.Stock.Sheet()) {
				t.Fatalf("%q: kept the size %+v", text, h)
			}
		}
		if strings.TrimSpace(text) != "" && found.Len() == 0 && !strings.Contains(text, "on hand") {
			t.Fatalf("%q: nothing to say of a file without counts", text)
		}
	})
}
