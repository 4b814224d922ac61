package decode

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// firstFinding is the first thing said about a YAML text, on one line.
func firstFinding(text string) string {
	var found diag.List
	YAML("f.yaml", []byte(text), &found)
	if found.Len() == 0 {
		return ""
	}
	f := found.All()[0]
	return fmt.Sprintf("%d:%d %s %s", f.At.Line, f.At.Col, f.Code, f.Message)
}

func TestYAMLRefuses(t *testing.T) {
	for _, c := range []struct{ text, want, reason string }{
		{"", "1:1 empty-file", "nothing at all"},
		{"# only a comment\n", "1:1 empty-file", "nothing but a comment"},
		{"a: 1\n\tb: 2\n", "2:1 yaml-syntax this line is indented with a tab", "a tab is not seen on the screen"},
		{"a:\n  b: 1\n c: 2\n", "3:2 yaml-syntax this line does not fit", "an indent that matches none"},
		{"x: 1\ny: 2\na: b: c\n", "3:1 yaml-syntax there is a second colon", "a colon inside a value"},
		{"a: 1\nb: [1, 2\nc: 3\n", "2:1 yaml-syntax a list in brackets is not closed", "the bracket, not the end of the file"},
		{"a: 1\nb: {x: 1\nc: 3\n", "2:1 yaml-syntax a mapping in braces is not closed", "the brace"},
		{"a: 1\nb: \"abc\nc: 1\n", "2:1 yaml-syntax a quoted text is not closed", "where the quote opens"},
		{"a: 1\nb: @foo\n", "2:1 yaml-syntax a value may not begin", "a reserved character"},
		{"a: 1\r\nb: - c\r\n", "2:1 yaml-syntax a list may not begin here", "line ends of another system count once"},
		{"a: &x 1\nb: *x\n", "1:4 alias the anchor &x", "anchors are refused where they stand"},
		{"a: *x\n", "1:1 yaml-syntax an alias is not understood", "an alias of nothing"},
		{"a: !!binary aGk=\n", "1:4 tag the tag !!binary", "tags"},
		{"a: 1\n---\nb: 2\n", "2:1 second-document", "a second document"},
		{"- a\n", "1:1 wrong-type a mapping belongs here, not a list", "a list at the top"},
		{"word\n", "1:1 wrong-type a mapping belongs here, not \"word\"", "a word at the top"},
		{"? [a]\n: b\n", "1:3 wrong-type a key must be a word", "a list for a key"},
		{"é: 1\né: 2\n", "2:1 duplicate-key", "a key twice"},
		{"a: é\x01\n", "1:5 bad-character the invisible character U+0001", "columns count characters, not bytes"},
		{"a: x\u202ey\n", "1:5 bad-character the invisible character U+202E", "a turned writing direction"},
		{"a: \xff\n", "1:4 not-utf-8 the byte FF here", "Latin-1 text"},
		{"\xff\xfea\x00", "1:1 not-utf-8 this file is saved as UTF-16", "UTF-16"},
		{"a: " + strings.Repeat("[", 100) + strings.Repeat("]", 100), "1:68 too-deep", "deep nesting"},
		{strings.Repeat("- ", maxMarks+1), "0:0 too-large this file holds too many values", "a bomb of list items"},
		{"a: " + strings.Repeat("x", maxYAML), "0:0 too-large this file is larger than 4 MB", "a huge text"},
	} {
		if got := firstFinding(c.text); !strings.HasPrefix(got, c.want) {
			t.Errorf("%.40q: %q, want %q: %s", c.text, got, c.want, c.reason)
		}
	}
}

func TestYAMLAccepts(t *testing.T) {
	for _, c := range []struct{ text, reason string }{
		{"\ufeffa: 1\n", "a byte order mark"},
		{"a: 1\r\nb: 2\r\n", "CRLF"},
		{"a: 1\rb: 2\r", "CR alone"},
		{"---\na: 1\n...\n", "document marks"},
		{"a: 1 # 54\"\n", "a comment"},
		{"a: 4' 6-1/2\"\n", "foot and inch marks"},
		{"a: 54″\n", "a typographic mark"},
	} {
		if got := firstFinding(c.text); got != "" {
			t.Errorf("%q: %s: %s is fine", c.text, got, c.reason)
		}
	}
}

// read is a YAML mapping for tests, its findings in the list.
func readMap(t *testing.T, text string) (*Map, *diag.List) {
	t.Helper()
	found := &diag.List{}
	m := YAML("f.yaml", []byte(text), found)
	if m == nil {
		t.Fatalf("%q is not read: %v", text, found.All())
	}
	return m, found
}

func TestValuesAreReadFromTheirSpelling(t *testing.T) {
	m, found := readMap(t, "sku: 00123\ncount: 012\ndate: 2027-02-15\nyes: yes\nbig: 1_000\nh: 4' 6\"\nw: 1kg\nlow: -2in\n")
	var sku, date string
	var count int
	var yes bool
	var h, low measure.Length
	var w measure.Mass
	ok := m.Text("sku", &sku) && m.Int("count", 1, 99, &count) && m.Text("date", &date) && m.Bool("yes", &yes) &&
		m.Length("h", measure.Millimetres, &h) && m.Mass("w", measure.Inches, &w) && m.Offset("low", measure.Inches, &low)
	if !ok || found.Len() > 0 {
		t.Fatalf("not all read: %v", found.All())
	}
	if sku != "00123" || count != 12 || date != "2027-02-15" || !yes || h != 54*measure.Inch || w != measure.Kilogram || low != -2*measure.Inch {
		t.Errorf("read %q %d %q %v %d %d %d", sku, count, date, yes, h, w, low)
	}
	var big int
	if m.Int("big", 0, 9999, &big) || found.Len() != 1 {
		t.Errorf("1_000 reads as %d, %v", big, found.All())
	}
}

func TestReadersReport(t *testing.T) {
	for _, c := range []struct {
		text string
		read func(m *Map)
		want string
	}{
		{"a: NaN", func(m *Map) { m.Length("a", measure.Inches, new(measure.Length)) }, `bad-length "NaN" is not a length`},
		{"a: -3", func(m *Map) { m.Length("a", measure.Inches, new(measure.Length)) }, `bad-length "-3" is negative`},
		{"a: --3", func(m *Map) { m.Offset("a", measure.Inches, new(measure.Length)) }, `bad-length "-3" is negative`},
		{"a: 0", func(m *Map) { m.Size("a", measure.Inches, new(measure.Length)) }, `bad-length this length is zero`},
		{"a: [1]", func(m *Map) { m.Length("a", measure.Inches, new(measure.Length)) }, `wrong-type a single value belongs here, not a list`},
		{"a: {b: 1}", func(m *Map) { m.Text("a", new(string)) }, `wrong-type a single value belongs here, not a mapping`},
		{"a: b", func(m *Map) { m.Get("a").List() }, `wrong-type a list belongs here, not "b"`},
		{"a: b", func(m *Map) { m.Get("a").Map() }, `wrong-type a mapping belongs here, not "b"`},
		{"a:", func(m *Map) { m.Text("a", new(string)) }, `no-value "a" has no value`},
		{"a: 5", func(m *Map) { m.Int("a", 1, 4, new(int)) }, `bad-number "5" is out of range`},
		{"a: 99999999999999999999", func(m *Map) { m.Int("a", 1, 4, new(int)) }, `bad-number "99999999999999999999" is out of range`},
		{"a: 1.5", func(m *Map) { m.Int("a", 1, 4, new(int)) }, `bad-number "1.5" is not a whole number`},
		{"a: $3", func(m *Map) { m.Decimal("a", new(string)) }, `bad-number "$3" is not a decimal number`},
		{"a: maybe", func(m *Map) { m.Bool("a", new(bool)) }, `bad-word "maybe" is neither true nor false`},
		{"a: lfet", func(m *Map) { m.Get("a").OneOf("left", "right") }, `bad-word "lfet" is not understood here`},
		{"a: \"x\\ny\"", func(m *Map) { m.Name("a", new(string)) }, `wrong-type a name on one line belongs here`},
		{"a: ''", func(m *Map) { m.Name("a", new(string)) }, `wrong-type a name on one line belongs here`},
		{"a: " + strings.Repeat("x", 201), func(m *Map) { m.Name("a", new(string)) }, `too-long this text is 201 characters long`},
		{"a: 1", func(m *Map) { m.Need("b") }, `missing-key "b" is missing here`},
		{"cuont: 1", func(m *Map) { m.Get("count"); m.Done() }, `unknown-key unknown key "cuont"`},
		{"<<: {b: 1}", func(m *Map) { m.Get("count"); m.Done() }, `unknown-key the merge key "<<" is not understood here`},
	} {
		m, found := readMap(t, c.text)
		c.read(m)
		if found.Len() != 1 {
			t.Errorf("%.40q: %d findings, want one: %v", c.text, found.Len(), found.All())
			continue
		}
		f := found.All()[0]
		if got := f.Code + " " + f.Message; got != c.want {
			t.Errorf("%.40q: %q, want %q", c.text, got, c.want)
		}
		if f.At.Line != 1 || f.At.Col == 0 || f.Level != diag.Error {
			t.Errorf("%.40q: reported as %v at %v", c.text, f.Level, f.At)
		}
	}
}

func TestSuggestions(t *testing.T) {
	m, found := readMap(t, "cuont: 1\nalign: lfet\n")
	m.Get("count")
	m.Get("align").OneOf("left", "right")
	m.Done()
	found.Sort()
	want := []string{`write "count"`, `write "left"`}
	for i, f := range found.All() {
		if f.Fix != want[i] {
			t.Errorf("fix %q, want %q", f.Fix, want[i])
		}
	}
}

func TestDefaultsStayWhenAKeyIsAbsentOrWrong(t *testing.T) {
	m, _ := readMap(t, "wrong: x\n")
	n, l := 7, measure.Inch
	if m.Int("wrong", 1, 9, &n) || m.Length("absent", measure.Inches, &l) || n != 7 || l != measure.Inch {
		t.Errorf("defaults became %d and %d", n, l)
	}
	var none *Map
	if none.Int("x", 1, 9, &n) || none.Get("x").Map() != nil || none.Has("x") || none.Entries() != nil {
		t.Error("a nil map has keys")
	}
	none.Done()
}

func TestFindingsAreBounded(t *testing.T) {
	var b strings.Builder
	for i := range 3 * maxFindings {
		fmt.Fprintf(&b, "key%d: 1\n", i)
	}
	m, found := readMap(t, b.String())
	m.Get("name")
	m.Done()
	if found.Len() != maxFindings+1 || found.All()[maxFindings].Code != "too-many-errors" {
		t.Errorf("%d findings", found.Len())
	}
}

// maxAlloc bounds what reading a hostile file may allocate in all, most of it
// not at once: about twice what the worst of them was seen to take.
const maxAlloc = 600 << 20

func TestHostileTextsStayCheap(t *testing.T) {
	for name, text := range map[string]string{
		"list":            "a:\n" + strings.Repeat("- b\n", 190_000),
		"comments":        "a:\n" + strings.Repeat("# c\n- b # c\n", 130_000),
		"brackets":        "a: " + strings.Repeat("[", 390_000),
		"braces":          "a: " + strings.Repeat("{a: ", 130_000),
		"anchors":         "a:\n" + strings.Repeat("- &a b\n", 130_000),
		"same key":        strings.Repeat("a: 1\n", 190_000),
		"unclosed quote":  "a: '" + strings.Repeat("x", maxYAML-10),
		"long tag":        strings.Repeat("!", maxYAML-10),
		"late error":      "a:\n" + strings.Repeat("- b\n", 50_000) + "b: c: d\n",
		"control letters": strings.Repeat("\x01", maxYAML-10),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		var found diag.List
		YAML("f.yaml", []byte(text), &found).Done()
		runtime.ReadMemStats(&after)
		if found.Len() == 0 || found.Len() > maxFindings+1 {
			t.Errorf("%s: %d findings", name, found.Len())
		}
		if got := after.TotalAlloc - before.TotalAlloc; got > maxAlloc {
			t.Errorf("%s: %d MB allocated", name, got>>20)
		}
		for _, f := range found.All() {
			if len(f.Message) > 300 {
				t.Errorf("%s: a message of %d bytes", name, len(f.Message))
			}
		}
	}
}

func FuzzYAML(f *testing.F) {
	f.Add("a: 1\nb: [x, {c: 4' 6\"}]\n")
	f.Add("a: &x 1\nb: *x\n<<: y\n")
	f.Add("\ta: |\n  x\n")
	f.Fuzz(func(t *testing.T, text string) {
		var found diag.List
		m := YAML("f.yaml", []byte(text), &found)
		if m == nil && !found.Has(diag.Error) {
			t.Fatalf("%q: neither a mapping nor an error", text)
		}
		lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
		for _, x := range found.All() {
			if x.At.Line > lines {
				t.Fatalf("%q: finding at %v of %d lines", text, x.At, lines)
			}
		}
	})
}
