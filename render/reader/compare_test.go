package reader

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/oracle"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
)

// TestCompare changes one thing of a pack at a time.
func TestCompare(t *testing.T) {
	change := func(what func(s *sheet.Sheet)) *sheet.Pack {
		p := small()
		what(p.Sheets[1])
		return p
	}
	text := func(s *sheet.Sheet, to string) {
		line := s.Items[1].(sheet.Text)
		line.S = to
		s.Items[1] = line
	}
	for _, c := range []struct {
		reason string
		pack   *sheet.Pack
		differ []int
		pages  [2]int
	}{
		{"nothing", small(), nil, [2]int{3, 3}},
		{"other files attached", func() *sheet.Pack { p := small(); p.Files = p.Files[:1]; return p }(), nil, [2]int{3, 3}},
		{"a line moved by a hundredth of a millimetre", change(func(s *sheet.Sheet) {
			line := s.Items[0].(sheet.Line)
			line.To.X += mm / 100
			s.Items[0] = line
		}), []int{1}, [2]int{3, 3}},
		{"a letter", change(func(s *sheet.Sheet) { text(s, "F-1-0 Thé vert 11½″ (a) \\") }), []int{1}, [2]int{3, 3}},
		{"a picture", change(func(s *sheet.Sheet) {
			for i, item := range s.Items {
				if im, ok := item.(sheet.Image); ok && im.Key == "drawing" {
					im.Data, im.Key = drawing(6, 20), "other"
					s.Items[i] = im
				}
			}
		}), []int{1}, [2]int{3, 3}},
		{"a page less", func() *sheet.Pack { p := small(); p.Sheets = p.Sheets[:2]; return p }(), nil, [2]int{2, 3}},
		{"a page's size", change(func(s *sheet.Sheet) { s.Width += mm }), []int{1}, [2]int{3, 3}},
	} {
		got, err := Compare(opened(t, written(t, c.pack)), opened(t, written(t, small())))
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		want := &Comparison{Differ: c.differ, Pages: c.pages}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", c.reason, d)
		}
	}
}

// TestCompareAnother: nothing of another document is the same, and it is not
// taken for one that was drawn anew.
func TestCompareAnother(t *testing.T) {
	other := small()
	for _, s := range other.Sheets {
		s.Items = s.Items[5:]
	}
	got, err := Compare(opened(t, written(t, other)), opened(t, written(t, small())))
	if err != nil || got.Rewritten || len(got.Differ) != 3 {
		t.Errorf("%+v, %v", got, err)
	}
	// A picture that is in all pages' resources, but the pages' text is the same:
	// what may be said is that the text is.
	other = small()
	for _, s := range other.Sheets {
		for i, item := range s.Items {
			if im, ok := item.(sheet.Image); ok && im.Key == "drawing" {
				im.Data = drawing(6, 20)
				s.Items[i] = im
			}
		}
	}
	got, err = Compare(opened(t, written(t, other)), opened(t, written(t, small())))
	if err != nil || !got.Rewritten || len(got.Differ) != 0 {
		t.Errorf("%+v, %v", got, err)
	}
}

// TestGlyphs holds letters and places against the tests' own reader, which
// shares nothing with this one.
func TestGlyphs(t *testing.T) {
	data := written(t, small())
	doc, err := pdftest.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := opened(t, data).Pages()
	if err != nil {
		t.Fatal(err)
	}
	const point = 25.4 / 72
	for i, p := range pages {
		mine, err := p.glyphs()
		if err != nil {
			t.Fatal(err)
		}
		height := p.box[3]
		at := 0
		for _, text := range doc.Pages[i].Texts {
			letters := strings.Join(strings.Fields(text.S), "")
			first := mine[at]
			if math.Hypot(first.x*point-text.At.X, (height-first.y)*point-text.At.Y) > 0.01 {
				t.Fatalf("page %d: %q begins at %v, not %v", i, text.S, first, text.At)
			}
			got := ""
			for len(got) < len(letters) {
				got += mine[at].text
				at++
			}
			if got != letters {
				t.Fatalf("page %d: %q, not %q", i, got, letters)
			}
			// Its last letter is as far along as all before it are wide.
			last := mine[at-1]
			along := math.Hypot(last.x-first.x, last.y-first.y) * point
			if along > text.Width || along < text.Width*0.8 && len(letters) > 4 {
				t.Errorf("page %d: the last letter of %q is %v mm along %v", i, text.S, along, text.Width)
			}
		}
		if at != len(mine) {
			t.Errorf("page %d: %d letters too many", i, len(mine)-at)
		}
	}
}

// TestScanner reads contents as other programs write them.
func TestScanner(t *testing.T) {
	s := &scanner{data: []byte("q 1 0 0 -1.50 .5 +3 cm%no\n/F1 9 Tf[(a\\(b\\)\\\\\\101\\n(c)) -12 <4 1 4>]TJ/X<</A[/B]>>BDC nan T*")}
	var got []string
	for {
		w, ok := s.next()
		if !ok {
			break
		}
		switch w.kind {
		case '0':
			got = append(got, strconv.FormatFloat(w.n, 'f', -1, 64))
		case 'o', '/', '(':
			got = append(got, string(w.kind)+w.text)
		default:
			got = append(got, string(w.kind))
		}
	}
	want := []string{"oq", "1", "0", "0", "-1.5", "0.5", "3", "ocm", "/F1", "9", "oTf", "[", "(a(b)\\A\n(c)", "-12", "(A@", "]", "oTJ",
		"/X", "<", "/A", "[", "/B", "]", ">", "oBDC", "onan", "oT*"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// TestPlainSpace leaves strings alone.
func TestPlainSpace(t *testing.T) {
	const in, want = " q\r\n  1 0  m ( two  blanks \\) ) Tj\n\n", "q 1 0 m ( two  blanks \\) ) Tj"
	if got := string(plainSpace([]byte(in))); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestSavedAnew has other programs save a pack: its files come back whole, and
// its pages are known again.
func TestSavedAnew(t *testing.T) {
	for _, c := range []struct {
		name      string
		command   []string // of $1 into $2
		rewritten bool
	}{
		{"object streams", []string{"qpdf", "--object-streams=generate", "$1", "$2"}, false},
		{"for the web", []string{"qpdf", "--linearize", "$1", "$2"}, false},
		{"no compression", []string{"qpdf", "--qdf", "$1", "$2"}, false},
		{"everything packed anew", []string{"qpdf", "--recompress-flate", "--compression-level=9", "--object-streams=generate", "$1", "$2"}, false},
		{"doubles dropped", []string{"mutool", "clean", "-gggg", "$1", "$2"}, false},
		{"packed", []string{"mutool", "clean", "-ggggz", "$1", "$2"}, false},
		{"contents written anew", []string{"mutool", "clean", "-ggggzs", "$1", "$2"}, true},
		{"printed to a PDF", []string{"gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", "-o", "$2", "$1"}, true},
	} {
		t.Run(c.command[0]+" "+c.name, func(t *testing.T) {
			oracle.Need(t, c.command[0])
			p := small()
			data := written(t, p)
			before, after := filepath.Join(t.TempDir(), "before.pdf"), filepath.Join(t.TempDir(), "after.pdf")
			if err := os.WriteFile(before, data, 0o666); err != nil {
				t.Fatal(err)
			}
			args := strings.NewReplacer("$1", before, "$2", after)
			var list []string
			for _, arg := range c.command[1:] {
				list = append(list, args.Replace(arg))
			}
			if out, err := exec.Command(c.command[0], list...).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			anew, err := os.ReadFile(after)
			if err != nil {
				t.Fatal(err)
			}
			d := opened(t, anew)
			if diff := cmp.Diff(wanted(p), attached(t, d)); diff != "" {
				t.Error(diff)
			}
			got, err := Compare(d, opened(t, data))
			if err != nil || len(got.Differ) > 0 || got.Rewritten != c.rewritten || got.Pages != [2]int{3, 3} {
				t.Errorf("%+v, %v", got, err)
			}
		})
	}
}

// TestEncrypted: a password in the way is said as such.
func TestEncrypted(t *testing.T) {
	qpdf := oracle.Need(t, "qpdf")
	for _, c := range [][]string{{"u", "o", "256"}, {"", "o", "256"}, {"u", "o", "128", "--use-aes=y"}} {
		before, after := filepath.Join(t.TempDir(), "before.pdf"), filepath.Join(t.TempDir(), "after.pdf")
		if err := os.WriteFile(before, written(t, small()), 0o666); err != nil {
			t.Fatal(err)
		}
		args := append(append([]string{"--encrypt"}, c...), "--", before, after)
		if out, err := exec.Command(qpdf, args...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		data, err := os.ReadFile(after)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Open(data); err != ErrEncrypted {
			t.Errorf("%q: %v", c, err)
		}
	}
}

// FuzzContent sets any content's text with the fonts of a pack.
func FuzzContent(f *testing.F) {
	d := opened(f, written(f, small()))
	pages, err := d.Pages()
	if err != nil {
		f.Fatal(err)
	}
	content, err := pages[0].content()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(content)
	f.Add([]byte("q BT /F0 9 Tf 2 Tc 50 Tz 3 Ts [<0012> -20 (ab\\12)]TJ T* (x) ' 1 2 (y) \" ET /X Do BI ID \x00EI Q Q"))
	resources, _ := d.dict(pages[0].resources)
	f.Fuzz(func(t *testing.T, content []byte) {
		ts := &typesetter{d: d, state: state{ctm: matrix{1, 0, 0, 1, 0, 0}, scale: 1}}
		ts.run(content, resources, mostForms)
		plainSpace(content)
		(&font{text: map[int]string{}, room: mostRoom}).readMap(content)
	})
}
