package pdftest

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// handmade is a PDF written by hand, one page of 72 by 144 points (1 by 2 in)
// with a font of two glyphs: 1 is A, half an em wide, 2 is ½, a quarter wide.
func handmade(content string, changes ...string) []byte {
	change := strings.NewReplacer(changes...)
	stream := func(dict, data string) string {
		data = change.Replace(data)
		return fmt.Sprintf("<<%s/Length %d>>\nstream\n%s\nendstream", dict, len(data), data)
	}
	objects := []string{
		"<</Type/Catalog/Pages 2 0 R>>",
		"<</Type/Pages/Kids[3 0 R]/Count 1/MediaBox[0 0 72 144]/Resources<</Font<</F 5 0 R>>/XObject<</I 9 0 R>>>>>>",
		"<</Type/Page/Parent 2 0 R/Contents 4 0 R>>",
		stream("", content),
		"<</Type/Font/Subtype/Type0/BaseFont/Hand/Encoding/Identity-H/DescendantFonts[6 0 R]/ToUnicode 8 0 R>>",
		"<</Type/Font/Subtype/CIDFontType2/DW 250/W[1[500]]/FontDescriptor 7 0 R>>",
		"<</Type/FontDescriptor>>",
		stream("", "begincmap 1 beginbfchar <0001> <0041> endbfchar 1 beginbfrange <0002> <0003> <00BD> endbfrange endcmap"),
		stream("/Subtype/Image/Width 2/Height 1", "xxxxxx"),
	}
	var b bytes.Buffer
	b.WriteString("%PDF-1.4\n")
	starts := make([]int, len(objects))
	for i, o := range objects {
		starts[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, change.Replace(o))
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, start := range starts {
		fmt.Fprintf(&b, "%010d 00000 n \n", start)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, xref)
	return b.Bytes()
}

func TestContents(t *testing.T) {
	black := &Color{}
	thin := Pen{Width: 25.4 / 72}
	for _, c := range []struct {
		reason, content string
		want            Page
	}{
		{"an empty page", "", Page{}},
		{"y runs down from the top", "0 144 m 72 0 l S", Page{Lines: []Line{{Point{0, 0}, Point{25.4, 50.8}, thin, 1}}}},
		{"cm moves and scales, pen and dashes too; Q takes it back", "q 2 0 0 2 36 0 cm 0.5 0.25 0 RG 3 w [4 2] 0 d 0 0 m 18 36 l S Q 0 0 m 36 0 l S",
			Page{Lines: []Line{
				{Point{12.7, 50.8}, Point{25.4, 25.4}, Pen{6 * 25.4 / 72, Color{0.5, 0.25, 0}, []float64{8 * 25.4 / 72, 4 * 25.4 / 72}}, 1},
				{Point{0, 50.8}, Point{12.7, 50.8}, thin, 2}}}},
		{"the inner cm applies first", "q 1 0 0 1 36 72 cm 2 0 0 2 0 0 cm 0 0 m 18 36 l S Q",
			Page{Lines: []Line{{Point{12.7, 25.4}, Point{25.4, 0}, Pen{Width: 2 * 25.4 / 72}, 1}}}},
		{"re is a closed path", "0.5 g 0 72 36 72 re f",
			Page{Paths: []Path{{Points: []Point{{0, 25.4}, {12.7, 25.4}, {12.7, 0}, {0, 0}}, Closed: true, Fill: &Color{0.5, 0.5, 0.5}, Order: 1}}}},
		{"b closes, fills and strokes", "0 144 m 72 144 l 72 72 l b",
			Page{Paths: []Path{{Points: []Point{{0, 0}, {25.4, 0}, {25.4, 25.4}}, Closed: true, Pen: &thin, Fill: black, Order: 1}}}},
		{"curves that are no circle stay curves", "0 144 m 10 144 20 144 72 144 c S",
			Page{Paths: []Path{{Points: []Point{{0, 0}, {10 * mmPerPoint, 0}, {20 * mmPerPoint, 0}, {25.4, 0}}, Curved: true, Pen: &thin, Order: 1}}}},
		{"text moves on by its widths", "BT /F 36 Tf 0 72 Td <0001> Tj <0002> Tj ET", Page{Texts: []Text{
			{S: "A", At: Point{0, 25.4}, Size: 12.7, Width: 6.35, Font: "Hand", Order: 1},
			{S: "½", At: Point{6.35, 25.4}, Size: 12.7, Width: 3.175, Font: "Hand", Order: 2}}}},
		{"TJ goes back by thousandths of an em", "BT /F 36 Tf 0 72 Td [<0001> 500 (\\000\\002)] TJ ET", Page{Texts: []Text{
			{S: "A½", At: Point{0, 25.4}, Size: 12.7, Width: 3.175, Font: "Hand", Order: 1}}}},
		{"text turned by Tm inside cm", "q 1 0 0 1 36 72 cm BT /F 36 Tf 0 1 -1 0 0 0 Tm <0001> Tj ET Q", Page{Texts: []Text{
			{S: "A", At: Point{12.7, 25.4}, Angle: 90, Size: 12.7, Width: 6.35, Font: "Hand", Order: 1}}}},
		{"T* goes down by the leading, from the line's beginning", "BT /F 36 Tf 36 TL 0 108 Td <0001> Tj T* <0001> Tj ET", Page{Texts: []Text{
			{S: "A", At: Point{0, 12.7}, Size: 12.7, Width: 6.35, Font: "Hand", Order: 1},
			{S: "A", At: Point{0, 25.4}, Size: 12.7, Width: 6.35, Font: "Hand", Order: 2}}}},
		{"space between characters, stretched", "BT /F 36 Tf 18 Tc 50 Tz 0 72 Td <00010001> Tj ET", Page{Texts: []Text{
			{S: "AA", At: Point{0, 25.4}, Size: 12.7, Width: 12.7, Font: "Hand", Order: 1}}}},
		{"a picture and its words", "/Span <</Alt (mug)>> BDC q 36 0 0 72 0 72 cm /I Do Q EMC", Page{Images: []Image{
			{Box: Box{Point{0, 0}, Point{12.7, 25.4}}, Object: 9, Width: 2, Height: 1, Alt: "mug", Order: 1}}}},
		{"comments and odd blanks", "0 144%m\r\n m\t72 0 l\fS", Page{Lines: []Line{{Point{0, 0}, Point{25.4, 50.8}, thin, 1}}}},
	} {
		doc, err := Read(handmade(c.content))
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		c.want.Width, c.want.Height = 25.4, 50.8
		if d := cmp.Diff(c.want, doc.Pages[0], cmpopts.EquateApprox(0, 1e-9), cmpopts.EquateEmpty()); d != "" {
			t.Errorf("%s: %s", c.reason, d)
		}
	}
}

func TestCircle(t *testing.T) {
	const k = 0.5522847498
	content := fmt.Sprintf("46 72 m 46 %[1]f %[2]f 82 36 82 c %[3]f 82 26 %[1]f 26 72 c 26 %[4]f %[3]f 62 36 62 c %[2]f 62 46 %[4]f 46 72 c h S",
		72+10*k, 36+10*k, 36-10*k, 72-10*k)
	doc, err := Read(handmade(content))
	if err != nil {
		t.Fatal(err)
	}
	circles := doc.Pages[0].Circles
	if len(circles) != 1 || math.Abs(circles[0].Radius-10*mmPerPoint) > 1e-6 || math.Abs(circles[0].Center.X-12.7) > 1e-6 {
		t.Errorf("circles %+v in %+v", circles, doc.Pages[0])
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		reason, content, want string
		changes               []string
	}{
		{"an operator it does not know", "0 0 m 9 9 l S /X sh", "unknown operator", nil},
		{"a clip would hide marks", "0 0 9 9 re W n", "unknown operator", nil},
		{"a path of two parts", "0 0 m 9 9 l 0 9 m 9 0 l S", "one part", nil},
		{"a state not taken back", "q 0 0 m 9 9 l S", "in the middle", nil},
		{"a text not ended", "BT", "in the middle", nil},
		{"a state never saved", "Q", "nothing saved", nil},
		{"text without a font", "BT <0001> Tj ET", "without a font", nil},
		{"a glyph without a character", "BT /F 9 Tf <0009> Tj ET", "has no character", nil},
		{"half a code", "BT /F 9 Tf <00> Tj ET", "odd number", nil},
		{"too few operands", "0 m", "1 numbers, not 2", nil},
		{"a font without a map to Unicode", "BT /F 9 Tf ET", "no map to Unicode", []string{"/ToUnicode 8 0 R", ""}},
		{"a glyph mapped twice", "BT /F 9 Tf ET", "mapped twice", []string{"<0041> endbfchar", "<0041> <0001> <0042> endbfchar"}},
		{"a simple font", "BT /F 9 Tf ET", "is not understood", []string{"/Type0", "/TrueType"}},
		{"an object that is not there", "", "not in the file", []string{"/Contents 4 0 R", "/Contents 44 0 R"}},
		{"an object under another's number", "", "where 4 should be", []string{"/Contents 4 0 R", "/Contents 4 0 R/X 99 0 R"}},
		{"a page that is turned", "", "is turned", []string{"/Contents", "/Rotate 90/Contents"}},
		{"pages miscounted", "", "1 pages under", []string{"/Count 1", "/Count 2"}},
		{"a key twice", "", "twice", []string{"/Count 1", "/Count 1/Count 1"}},
		{"a stream longer than said", "0 0 m 9 9 l S", "longer than its length", []string{"/Length 13", "/Length 7"}},
		{"a filter it does not know", "", "filter", []string{"<</Length 0", "<</Filter/LZWDecode/Length 0"}},
	} {
		data := handmade(c.content, c.changes...)
		if strings.Contains(c.want, "where 4") {
			data = bytes.Replace(data, []byte("\n4 0 obj"), []byte("\n7 0 obj"), 1)
		}
		if _, err := Read(data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.reason, err, c.want)
		}
	}
}

func TestObjects(t *testing.T) {
	for _, c := range []struct {
		reason, in string
		want       any
	}{
		{"numbers", "[1 -2 +.5 4. 0.25]", []any{1.0, -2.0, 0.5, 4.0, 0.25}},
		{"a reference among numbers", "[1 2 0 R 3 0]", []any{1.0, ref{2, 0}, 3.0, 0.0}},
		{"no exponents and no Inf in PDF", "1e5", keyword("1e5")},
		{"escapes in a string", `(a\(b\)\\\n\101\7(nested)` + "\\\r\nc\r\n)", text("a(b)\\\nA\a(nested)c\n")},
		{"hexadecimal with blanks and half a byte", "<48 65\n7>", text("Hep")},
		{"a name with an escape", "/A#20B", name("A B")},
		{"a dictionary in an array", "[<</K<</L null/M true>>>>]", []any{dict{"K": dict{"L": nil, "M": true}}}},
		{"the end", "  % only a comment", keyword("")},
	} {
		got, err := (&lexer{data: []byte(c.in)}).object(0)
		if d := cmp.Diff(c.want, got, cmp.AllowUnexported(ref{})); d != "" || err != nil {
			t.Errorf("%s: %v %s", c.reason, err, d)
		}
	}
	for _, bad := range []string{"(open", "<4", "<zz>", "[1", "<<1 2>>", "<</K>>", ")", strings.Repeat("[", 99)} {
		if got, err := (&lexer{data: []byte(bad)}).object(0); err == nil {
			t.Errorf("%q read as %v", bad, got)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(handmade("0 0 m 9 9 l S BT /F 36 Tf 0 72 Td [<0001> 500 <0002>] TJ ET q 36 0 0 72 0 72 cm /I Do Q"))
	f.Add([]byte("%PDF-1.7\nstartxref\n99999999999999999999\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := Read(data)
		if (doc == nil) == (err == nil) {
			t.Error("neither a document nor an error, or both")
		}
	})
}
