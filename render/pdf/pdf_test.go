package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/pdf"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
)

// close is how far a mark may be from where the sheet says, in millimetres:
// positions are rounded to 0.001 pt (0.00035 mm).
const close = 0.0003

func written(t testing.TB, p *sheet.Pack) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func readBack(t testing.TB, p *sheet.Pack) *pdftest.Document {
	t.Helper()
	doc, err := pdftest.Read(written(t, p))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func onePage(items ...sheet.Item) *sheet.Pack {
	return &sheet.Pack{Sheets: []*sheet.Sheet{{Name: "one", Width: 210 * mm, Height: 297 * mm, Items: items}}}
}

func at(x, y measure.Length) sheet.Point { return sheet.Point{X: x, Y: y} }

func millimetres(l measure.Length) float64 { return float64(l) / float64(mm) }

func isAt(got pdftest.Point, want sheet.Point) bool {
	return math.Hypot(got.X-millimetres(want.X), got.Y-millimetres(want.Y)) < 2*close
}

// A 48 in shelf at 1:12 is 4 in long on the paper.
func TestScaledLineMeasuresTrue(t *testing.T) {
	shelf := 48 * measure.Inch / 12
	doc := readBack(t, onePage(sheet.Line{From: at(20*mm, 30*mm), To: at(20*mm+shelf, 30*mm), Stroke: sheet.Stroke{Width: 350 * um}}))
	line := doc.Pages[0].Lines[0]
	if got := line.Length(); math.Abs(got-4*25.4) > close {
		t.Errorf("%v mm long, want 101.6", got)
	}
	if math.Abs(line.Pen.Width-0.35) > close {
		t.Errorf("%v mm thick, want 0.35", line.Pen.Width)
	}
}

// Random marks in random order all come back where they were put, as they
// were drawn, in that order.
func TestMarksComeBack(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 40 {
		p := onePage()
		s := p.Sheets[0]
		s.Width, s.Height = length(random, 100*mm, 900*mm), length(random, 100*mm, 900*mm)
		for range 60 {
			s.Add(randomItem(random, s))
		}
		page := readBack(t, p).Pages[0]
		if math.Abs(page.Width-millimetres(s.Width)) > 0.005 || math.Abs(page.Height-millimetres(s.Height)) > 0.005 {
			t.Fatalf("page of %v x %v mm, want %s x %s", page.Width, page.Height, s.Width.MM(), s.Height.MM())
		}
		marks := inOrder(page)
		if len(marks) != len(s.Items) {
			t.Fatalf("%d marks for %d items", len(marks), len(s.Items))
		}
		for i, item := range s.Items {
			if err := same(marks[i+1], item); err != nil {
				t.Fatalf("item %d %+v came back as %+v: %v", i, item, marks[i+1], err)
			}
		}
	}
}

func length(random *rand.Rand, lo, hi measure.Length) measure.Length {
	return lo + measure.Length(random.Int64N(int64(hi-lo)))
}

func randomItem(random *rand.Rand, s *sheet.Sheet) sheet.Item {
	somewhere := func() sheet.Point { return at(length(random, 0, s.Width), length(random, 0, s.Height)) }
	ink := sheet.Color{R: uint8(random.IntN(256)), G: uint8(random.IntN(256)), B: uint8(random.IntN(3))}
	pen := sheet.Stroke{Width: length(random, 100*um, mm), Color: ink}
	if random.IntN(2) == 0 {
		pen.Dash = []measure.Length{length(random, 1, 9*mm), length(random, 1, 9*mm)}
	}
	var maybePen *sheet.Stroke
	maybeInk := &ink
	if random.IntN(2) == 0 {
		maybePen = &pen
		if random.IntN(2) == 0 {
			maybeInk = nil
		}
	}
	switch random.IntN(5) {
	case 0:
		return sheet.Line{From: somewhere(), To: somewhere(), Stroke: pen}
	case 1:
		points := []sheet.Point{somewhere(), somewhere(), somewhere()}
		for range random.IntN(9) {
			points = append(points, somewhere())
		}
		return sheet.Path{Points: points, Closed: random.IntN(2) == 0, Stroke: maybePen, Fill: maybeInk}
	case 2:
		return sheet.Circle{Center: somewhere(), Radius: length(random, mm/10, 90*mm), Stroke: maybePen, Fill: maybeInk}
	case 3:
		corner := somewhere()
		return sheet.Boxes{List: []sheet.Rect{{Min: corner, Max: at(corner.X+length(random, um, 9*mm), corner.Y+length(random, um, 9*mm))}}, Fill: ink}
	}
	words := []string{"54½″", "F-2-3", "Été: 3 × ⌀6", "(a\\b)", "15⁄16", "☐ ▲ →", "漢 \x00🌱", "x\xff"}
	return sheet.Text{
		At: somewhere(), S: words[random.IntN(len(words))], Face: fonts.Face(random.IntN(2)),
		Size: length(random, mm, 30*mm), Anchor: sheet.Anchor(random.IntN(3)), Up: random.IntN(2) == 0, Color: ink,
	}
}

// inOrder gives the page's marks by the order they were drawn, from 1.
func inOrder(page pdftest.Page) map[int]any {
	marks := make(map[int]any)
	for _, m := range page.Lines {
		marks[m.Order] = m
	}
	for _, m := range page.Paths {
		marks[m.Order] = m
	}
	for _, m := range page.Circles {
		marks[m.Order] = m
	}
	for _, m := range page.Texts {
		marks[m.Order] = m
	}
	return marks
}

func same(mark any, item sheet.Item) error {
	switch it := item.(type) {
	case sheet.Line:
		m, ok := mark.(pdftest.Line)
		if !ok || !isAt(m.From, it.From) || !isAt(m.To, it.To) {
			return errors.New("another line")
		}
		return samePen(&m.Pen, &it.Stroke)
	case sheet.Path:
		m, ok := mark.(pdftest.Path)
		if !ok || len(m.Points) != len(it.Points) || m.Closed != it.Closed || m.Curved {
			return errors.New("another path")
		}
		for i := range m.Points {
			if !isAt(m.Points[i], it.Points[i]) {
				return fmt.Errorf("point %d", i)
			}
		}
		return errors.Join(samePen(m.Pen, it.Stroke), sameInk(m.Fill, it.Fill))
	case sheet.Boxes:
		m, ok := mark.(pdftest.Path)
		if !ok || len(m.Points) != 4 || !m.Closed || m.Pen != nil || !isAt(m.Points[3], it.List[0].Min) || !isAt(m.Points[1], it.List[0].Max) {
			return errors.New("another box")
		}
		return sameInk(m.Fill, &it.Fill)
	case sheet.Circle:
		m, ok := mark.(pdftest.Circle)
		if !ok || !isAt(m.Center, it.Center) || math.Abs(m.Radius-millimetres(it.Radius)) > 2*close {
			return errors.New("another circle")
		}
		return errors.Join(samePen(m.Pen, it.Stroke), sameInk(m.Fill, it.Fill))
	case sheet.Text:
		m, ok := mark.(pdftest.Text)
		if !ok {
			return errors.New("no text")
		}
		return sameText(m, it)
	}
	return fmt.Errorf("item %T", item)
}

func sameText(m pdftest.Text, it sheet.Text) error {
	angle, face := 0.0, "SETREG+DejaVuSansCondensed"
	if it.Up {
		angle = 90
	}
	if it.Face == fonts.Bold {
		face = "SETBLD+DejaVuSansCondensed-Bold"
	}
	want, _ := fonts.Clean(it.S)
	if m.S != want || m.Font != face || math.Abs(m.Angle-angle) > 1e-9 {
		return errors.New("another text, face or angle")
	}
	if math.Abs(m.Size-millimetres(it.Size)) > close || math.Abs(m.Width-millimetres(fonts.Width(it.Face, it.S, it.Size))) > 10*close {
		return errors.New("another size")
	}
	anchor := [...]pdftest.Point{m.At, m.Middle(), m.End()}[it.Anchor]
	if math.Hypot(anchor.X-millimetres(it.At.X), anchor.Y-millimetres(it.At.Y)) > 10*close {
		return errors.New("another place")
	}
	return sameInk(&m.Color, &it.Color)
}

func samePen(got *pdftest.Pen, want *sheet.Stroke) error {
	if got == nil || want == nil {
		if (got == nil) != (want == nil) {
			return errors.New("outlined or not")
		}
		return nil
	}
	if math.Abs(got.Width-millimetres(want.Width)) > close || len(got.Dash) != len(want.Dash) {
		return errors.New("another pen")
	}
	for i := range got.Dash {
		if math.Abs(got.Dash[i]-millimetres(want.Dash[i])) > close {
			return errors.New("other dashes")
		}
	}
	return sameInk(&got.Color, &want.Color)
}

func sameInk(got *pdftest.Color, want *sheet.Color) error {
	if got == nil || want == nil {
		if (got == nil) != (want == nil) {
			return errors.New("filled or not")
		}
		return nil
	}
	for i, part := range [3]uint8{want.R, want.G, want.B} {
		if math.Round(got[i]*255) != float64(part) {
			return errors.New("another colour")
		}
	}
	return nil
}

// Ink is read off the outlines embedded: of H, which is 1493 units high, stands
// on the baseline and has as much room to its left as to its right.
func TestInk(t *testing.T) {
	const em = 20480 * um // ten font units are 0.1 mm
	word := sheet.Text{At: at(50*mm, 60*mm), S: "H H", Size: em}
	turned := word
	turned.Up = true
	texts := readBack(t, onePage(word, turned)).Pages[0].Texts
	space := millimetres(fonts.Width(fonts.Regular, " ", em))
	advance := millimetres(fonts.Width(fonts.Regular, "H", em))
	left := texts[0].Ink.Min.X - 50
	want := pdftest.Box{Min: pdftest.Point{X: 50 + left, Y: 60 - 14.93}, Max: pdftest.Point{X: 50 + 2*advance + space - left, Y: 60}}
	if left <= 0 || left > 3 || !sameBox(texts[0].Ink, want) {
		t.Errorf("ink %+v, want %+v", texts[0].Ink, want)
	}
	long := want.Max.X - want.Min.X
	want = pdftest.Box{Min: pdftest.Point{X: 50 - 14.93, Y: 60 - left - long}, Max: pdftest.Point{X: 50, Y: 60 - left}}
	if !sameBox(texts[1].Ink, want) {
		t.Errorf("turned: ink %+v, want %+v", texts[1].Ink, want)
	}
}

func sameBox(a, b pdftest.Box) bool {
	const outline = 0.01 // outlines are whole font units, H need not be symmetrical to the unit
	return math.Abs(a.Min.X-b.Min.X) < outline && math.Abs(a.Min.Y-b.Min.Y) < outline &&
		math.Abs(a.Max.X-b.Max.X) < outline && math.Abs(a.Max.Y-b.Max.Y) < outline
}

func TestClashesAreSeenInTheFile(t *testing.T) {
	word := func(x, y measure.Length, s string) sheet.Text {
		return sheet.Text{At: at(x*mm, y*mm), S: s, Size: 10 * mm}
	}
	page := readBack(t, onePage(word(20, 20, "Tea"), word(25, 20, "tin"), word(205, 90, "Tea"), word(20, 40, "xx"), word(20, 34, "xx"), word(20, 20, " "))).Pages[0]
	// The lines of x are 6 mm apart and 10 mm high, but their ink is not.
	if d := cmp.Diff([][2]int{{0, 1}, {2, -1}}, page.Clashes()); d != "" {
		t.Error(d)
	}
}

// Whatever a text says, it is written, and comes back with what the faces
// lack replaced.
func FuzzText(f *testing.F) {
	for _, s := range []string{"54½″", "\xff\x00", "🌱", "\u202Ea", ") Tj ET", ">> 1 0 R"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p := onePage(sheet.Text{At: at(mm, mm), S: s, Size: mm})
		p.Title, p.Sheets[0].Title, p.Language = s, s, s
		texts := readBack(t, p).Pages[0].Texts
		want := strings.Map(func(r rune) rune {
			if !fonts.Has(fonts.Regular, r) {
				return fonts.Replacement
			}
			return r
		}, s)
		if len(texts) != min(1, len(s)) {
			t.Fatalf("%d texts", len(texts))
		}
		// A blank that does not break shares the glyph of one that does.
		if len(texts) == 1 && glyphs(texts[0].S) != glyphs(want) {
			t.Errorf("%q came back as %q", want, texts[0].S)
		}
	})
}

func glyphs(s string) string {
	out := ""
	for _, r := range s {
		id, _ := fonts.Glyph(fonts.Regular, r)
		out += fmt.Sprint(id, " ")
	}
	return out
}

func TestEachPageHasItsOwnSize(t *testing.T) {
	p := onePage()
	mark := sheet.Line{From: at(5*mm, 7*mm), To: at(50*mm, 7*mm), Stroke: sheet.Stroke{Width: 250 * um}}
	sizes := []struct {
		reason string
		w, h   measure.Length
	}{
		{"A4 upright", 210 * mm, 297 * mm},
		{"A4 lying", 297 * mm, 210 * mm},
		{"tabloid lying", 17 * measure.Inch, 11 * measure.Inch},
		{"letter upright", 17 * measure.Inch / 2, 11 * measure.Inch},
		{"A4 upright again", 210 * mm, 297 * mm},
	}
	p.Sheets = nil
	for _, size := range sizes {
		p.Sheets = append(p.Sheets, &sheet.Sheet{Name: size.reason, Width: size.w, Height: size.h, Items: []sheet.Item{mark}})
	}
	for i, page := range readBack(t, p).Pages {
		if math.Abs(page.Width-millimetres(sizes[i].w)) > 0.002 || math.Abs(page.Height-millimetres(sizes[i].h)) > 0.002 {
			t.Errorf("%s: %v x %v mm", sizes[i].reason, page.Width, page.Height)
		}
		if err := same(page.Lines[0], mark); err != nil {
			t.Errorf("%s: %v", sizes[i].reason, err)
		}
	}
}

func TestLinksAndOutlines(t *testing.T) {
	p := &sheet.Pack{}
	for i, depth := range []int{0, 1, 2, 2, 1, 0, 5, 1} { // 5: a jump hangs one deeper
		p.Sheets = append(p.Sheets, &sheet.Sheet{
			Name: fmt.Sprint("s", i), Title: fmt.Sprintf("%d “é” ½", i), Depth: depth, Width: 100 * mm, Height: measure.Length(100+10*i) * mm,
		})
	}
	p.Sheets[7].Title = ""
	p.Sheets[1].Add(sheet.Link{Box: sheet.Rect{Min: at(10*mm, 20*mm), Max: at(30*mm, 25*mm)}, To: "s6"},
		sheet.Link{Box: sheet.Rect{Min: at(0, 0), Max: at(5*mm, 5*mm)}, To: "s1"})
	doc := readBack(t, p)
	want := []pdftest.Bookmark{
		{Title: "0 “é” ½", Depth: 0, Page: 0, Count: 4}, {Title: "1 “é” ½", Depth: 1, Page: 1, Count: 2},
		{Title: "2 “é” ½", Depth: 2, Page: 2}, {Title: "3 “é” ½", Depth: 2, Page: 3}, {Title: "4 “é” ½", Depth: 1, Page: 4},
		{Title: "5 “é” ½", Depth: 0, Page: 5, Count: 2}, {Title: "6 “é” ½", Depth: 1, Page: 6}, {Title: "s7", Depth: 1, Page: 7},
	}
	if d := cmp.Diff(want, doc.Outlines); d != "" {
		t.Error(d)
	}
	links := doc.Pages[1].Links
	if len(links) != 2 || links[0].Page != 6 || links[1].Page != 1 || !links[0].Print {
		t.Fatalf("links %+v", links)
	}
	// fpdf prints a link's box with two decimals of a point.
	for i, corner := range []struct{ got, want float64 }{
		{links[0].Box.Min.X, 10}, {links[0].Box.Min.Y, 20}, {links[0].Box.Max.X, 30}, {links[0].Box.Max.Y, 25},
	} {
		if math.Abs(corner.got-corner.want) > 0.005 {
			t.Errorf("side %d of the link at %v mm, want %v", i, corner.got, corner.want)
		}
	}
}

func TestAboutTheDocument(t *testing.T) {
	p := onePage(sheet.Text{At: at(mm, 9*mm), S: "a", Size: 3 * mm})
	p.Title, p.Author, p.Subject, p.Keywords = "Spring (é) <&> ½\x01", "Store design", "Build sheets", "seed, tea"
	p.Creator, p.Language, p.Date = "setwright 0.1", "fr-CA", "2027-02-15"
	doc := readBack(t, p)
	want := map[string]string{
		"Title": "Spring (é) <&> ½\uFFFD", "Author": "Store design", "Subject": "Build sheets", "Keywords": "seed, tea",
		"Creator": "setwright 0.1", "Producer": "Setwright, with fpdf", "CreationDate": "D:20270215000000Z", "ModDate": "D:20270215000000Z",
	}
	if d := cmp.Diff(want, doc.Info); d != "" {
		t.Error(d)
	}
	for _, part := range []string{
		"Spring (é) &lt;&amp;&gt; ½\uFFFD", ">Store design<", ">Build sheets<", ">seed, tea<", ">setwright 0.1<", ">fr-CA<",
		"<pdfaid:part>3</pdfaid:part>", "<pdfaid:conformance>B</pdfaid:conformance>", "<xmp:CreateDate>2027-02-15T00:00:00Z</xmp:CreateDate>",
	} {
		if !strings.Contains(doc.Metadata, part) {
			t.Errorf("XMP lacks %q", part)
		}
	}
	if doc.Language != "fr-CA" || !doc.ShowTitle || !doc.Intent || len(doc.ID[0]) != 16 || doc.ID[0] != doc.ID[1] {
		t.Errorf("language %q, title shown %v, intent %v, ID %x", doc.Language, doc.ShowTitle, doc.Intent, doc.ID)
	}
	if d := cmp.Diff([]pdftest.Font{{Name: "SETREG+DejaVuSansCondensed", Embedded: true, Unicode: true}}, doc.Fonts); d != "" {
		t.Error(d)
	}
}

// A string that is longer than PDF/A has them is cut, and not inside a
// character that takes two code units.
func TestLongTextIsCut(t *testing.T) {
	p := onePage()
	p.Title = "é" + strings.Repeat("🌱", 9000)
	p.Sheets[0].Title = strings.Repeat("é", 9000) + strings.Repeat("e", 9000)
	doc := readBack(t, p)
	title, bookmark := "é"+strings.Repeat("🌱", 8190), strings.Repeat("é", 9000)+strings.Repeat("e", 7382)
	if doc.Info["Title"] != title || !strings.Contains(doc.Metadata, ">"+title+"<") || doc.Outlines[0].Title != bookmark {
		t.Errorf("title of %d bytes, bookmark of %d", len(doc.Info["Title"]), len(doc.Outlines[0].Title))
	}
}

// picture is a PNG or JPEG of one shade.
func picture(t testing.TB, w, h int, shade uint8, asJPEG bool) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = shade
		if i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	img.Set(0, 0, color.RGBA{255, 0, 0, 255})
	var b bytes.Buffer
	var err error
	if asJPEG {
		err = jpeg.Encode(&b, img, nil)
	} else {
		err = png.Encode(&b, img)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func withPictures(t testing.TB) *sheet.Pack {
	p := onePage()
	mug, tin := picture(t, 40, 30, 90, true), picture(t, 40, 20, 200, false)
	box := func(x measure.Length) sheet.Rect {
		return sheet.Rect{Min: at(x*mm, 20*mm), Max: at(x*mm+16*mm, 32*mm)}
	}
	p.Sheets[0].Add(
		sheet.Image{Box: box(10), Key: "mug", Data: mug, Alt: "A mug “blue”"},
		sheet.Image{Box: box(30), Key: "tin", Data: tin},
		sheet.Image{Box: box(50), Key: "mug", Data: mug},
		sheet.Image{Box: box(70), Key: "same mug", Data: bytes.Clone(mug)},
		sheet.Text{At: at(10*mm, 50*mm), S: "under them", Size: 3 * mm},
	)
	for i := range 9 { // of one width: fpdf writes these in random order
		p.Sheets[0].Add(sheet.Image{Box: box(10), Key: fmt.Sprint("many", i), Data: picture(t, 40, 10+i, 128, i%2 == 0)})
	}
	return p
}

func TestPictures(t *testing.T) {
	doc := readBack(t, withPictures(t))
	images := doc.Pages[0].Images
	if len(images) != 13 || doc.Pictures != 11 {
		t.Fatalf("%d pictures shown, %d embedded, want 13 and 11", len(images), doc.Pictures)
	}
	if images[0].Object != images[2].Object || images[0].Object != images[3].Object || images[0].Object == images[1].Object {
		t.Errorf("the same picture is embedded more than once, or another is taken for it: %+v", images[:4])
	}
	if images[0].Alt != "A mug “blue”" || images[1].Alt != "" || images[0].Width != 40 || images[0].Height != 30 {
		t.Errorf("first picture %+v, second %+v", images[0], images[1])
	}
	if b := images[1].Box; math.Abs(b.Min.X-30) > close || math.Abs(b.Min.Y-20) > close || math.Abs(b.Max.X-46) > close || math.Abs(b.Max.Y-32) > close {
		t.Errorf("picture at %+v mm, want 30,20 to 46,32", b)
	}
}

func TestSameBytes(t *testing.T) {
	for _, c := range []struct {
		reason string
		pack   *sheet.Pack
	}{{"many sheets", fullPack()}, {"pictures of one width", withPictures(t)}, {"attached files", withFiles()}} {
		first := written(t, c.pack)
		for _, workers := range []int{1, 2, 7} {
			before := runtime.GOMAXPROCS(workers)
			again := written(t, c.pack)
			runtime.GOMAXPROCS(before)
			if !bytes.Equal(first, again) {
				t.Errorf("%s: other bytes on %d threads", c.reason, workers)
			}
		}
	}
}

func TestPackIsSmall(t *testing.T) {
	const most = 250 << 10
	if got := len(written(t, fullPack())); got > most {
		t.Errorf("%d bytes, at most %d", got, most)
	}
}

// inks is the head of a JPEG of one pixel in four inks: what is read of it to
// know its colours (ITU-T T.81, B.2.2).
var inks = []byte("\xff\xd8\xff\xc0\x00\x14\x08\x00\x01\x00\x01\x04\x01\x11\x00\x02\x11\x00\x03\x11\x00\x04\x11\x00\xff\xda\x00\x02")

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		reason, want string
		spoil        func(*sheet.Pack)
	}{
		{"nothing to write", "no sheets", func(p *sheet.Pack) { p.Sheets = nil }},
		{"nothing could link to it", "has no name", func(p *sheet.Pack) { p.Sheets[0].Name = "" }},
		{"links would be ambiguous", `two sheets are named "one"`, func(p *sheet.Pack) { p.Sheets = append(p.Sheets, p.Sheets[0]) }},
		{"no paper", "is no page size", func(p *sheet.Pack) { p.Sheets[0].Width = 0 }},
		{"smaller than a page may be", "is no page size", func(p *sheet.Pack) { p.Sheets[0].Height = mm }},
		{"readers stop at 200 in", "is no page size", func(p *sheet.Pack) { p.Sheets[0].Height = 201 * measure.Inch }},
		{"a dead link", `link to "two"`, func(p *sheet.Pack) { p.Sheets[0].Add(sheet.Link{To: "two"}) }},
		{"no picture", `picture "x" is neither`, func(p *sheet.Pack) { p.Sheets[0].Add(sheet.Image{Key: "x", Data: []byte("GIF89a")}) }},
		{"a picture in printing inks", `picture "x" is in printing inks`, func(p *sheet.Pack) {
			p.Sheets[0].Add(sheet.Image{Key: "x", Data: inks})
		}},
		{"a picture to see through", `picture "x" is not opaque`, func(p *sheet.Pack) {
			var b bytes.Buffer
			if err := png.Encode(&b, image.NewNRGBA(image.Rect(0, 0, 9, 9))); err != nil {
				t.Fatal(err)
			}
			p.Sheets[0].Add(sheet.Image{Key: "x", Data: b.Bytes()})
		}},
		{"a picture cut short", `picture "x"`, func(p *sheet.Pack) {
			p.Sheets[0].Add(sheet.Image{Key: "x", Data: picture(t, 9, 9, 1, false)[:40]})
		}},
		{"not a day", `date "15 Feb"`, func(p *sheet.Pack) { p.Date = "15 Feb" }},
		{"an item that is none", "no way to draw", func(p *sheet.Pack) { p.Sheets[0].Add(nil) }},
		{"a programmer's mistake in the pack", "cannot be written", func(p *sheet.Pack) { p.Sheets = append(p.Sheets, nil) }},
	} {
		p := onePage()
		c.spoil(p)
		var b bytes.Buffer
		err := pdf.Write(&b, p)
		if err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: error %v with %d bytes written, want %q and none", c.reason, err, b.Len(), c.want)
		}
	}
}

func TestWritersErrorIsPassedOn(t *testing.T) {
	r, w := io.Pipe()
	full := errors.New("disk full")
	r.CloseWithError(full)
	if err := pdf.Write(w, onePage()); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}

func TestNothingToDrawIsNoMark(t *testing.T) {
	page := readBack(t, onePage(
		sheet.Path{}, sheet.Path{Points: []sheet.Point{at(1, 1)}, Fill: &sheet.Color{}},
		sheet.Path{Points: []sheet.Point{at(0, 0), at(mm, mm)}}, sheet.Circle{Radius: mm}, sheet.Boxes{}, sheet.Circle{Fill: &sheet.Color{}},
		sheet.Text{At: at(mm, mm), Size: mm}, sheet.Text{S: "no size"},
	)).Pages[0]
	if n := len(inOrder(page)); n != 0 {
		t.Errorf("%d marks: %+v", n, page)
	}
}
