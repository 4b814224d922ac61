package fonts

import (
	"compress/zlib"
	"io"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"setwright/layout/measure"
)

const mm = measure.Millimetre

func inflate(t *testing.T, f Face) []byte {
	t.Helper()
	r, err := zlib.NewReader(strings.NewReader(Embedded(f).Deflated))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestFacesAreSmallAndDescribedRight(t *testing.T) {
	const most = 150 << 10 // bytes a face may add to the program
	for f := range Face(Faces) {
		p, data := Embedded(f), inflate(t, f)
		if len(data) > most || len(data) != p.Size {
			t.Errorf("face %d: %d bytes, said %d, at most %d", f, len(data), p.Size, most)
		}
		parsed, err := sfnt.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		box, err := parsed.Bounds(nil, UnitsPerEm<<6, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		// sfnt's y runs down; at this size its lengths are font units with six binary places.
		got := [4]int{int(box.Min.X) >> 6, -int(box.Max.Y) >> 6, int(box.Max.X) >> 6, -int(box.Min.Y) >> 6}
		if got != p.Box {
			t.Errorf("face %d: glyphs' box %v, said %v", f, got, p.Box)
		}
	}
}

// Every character of the basic plane: the table says what the font's own cmap
// and hmtx say.
func TestTableAgreesWithFont(t *testing.T) {
	for f := range Face(Faces) {
		parsed, err := sfnt.Parse(inflate(t, f))
		if err != nil {
			t.Fatal(err)
		}
		if parsed.UnitsPerEm() != UnitsPerEm {
			t.Fatalf("face %d: %d units an em", f, parsed.UnitsPerEm())
		}
		count := 0
		for r := rune(0); r <= 0xFFFF; r++ {
			id, err := parsed.GlyphIndex(nil, r)
			if err != nil {
				t.Fatal(err)
			}
			if Has(f, r) != (id != 0) {
				t.Fatalf("face %d: Has(%U) = %v, font's glyph %d", f, r, Has(f, r), id)
			}
			if id == 0 {
				continue
			}
			count++
			want, err := parsed.GlyphAdvance(nil, id, fixed.Int26_6(UnitsPerEm), font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if got, advance := Glyph(f, r); got != uint16(id) || int(advance) != int(want) {
				t.Errorf("face %d %U: glyph %d advance %d, font says %d and %d", f, r, got, advance, id, want)
			}
		}
		if count < 500 {
			t.Errorf("face %d: only %d characters", f, count)
		}
	}
}

func TestBothFacesHoldTheSame(t *testing.T) {
	for r := rune(0); r <= 0xFFFF; r++ {
		if Has(Regular, r) != Has(Bold, r) {
			t.Errorf("%U is in one face only", r)
		}
	}
}

func TestFacesHoldWhatSheetsSay(t *testing.T) {
	for _, wanted := range []struct{ reason, chars string }{
		{"English, Spanish, French", "AZaz09áéíóúüñ¿¡àâæçèêëîïôœùûÿÀÂÆÇÈÉÊËÎÏÔŒÙÛŸ«»‹›"},
		{"other Latin names", "ÄÖÜäöüßåøØłŁżěščřžýůőűğşıăâîșțđ"},
		{"fractions", "⅛¼⅜½⅝¾⅞⁄⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉"},
		{"dashes and quotes", "-–—‐‑‘’“”‚„…·•"},
		{"measure", "′″°±×⌀≈≤≥÷−µ"},
		{"arrows and triangles", "←↑→↓↔↕▲△▶▷▼▽◀◁"},
		{"tick boxes", "☐☑☒✓✔✗✘□■"},
		{"money", "€£$¢¥"},
		{"what is missing", "\uFFFD"},
	} {
		for _, r := range wanted.chars {
			if !Has(Regular, r) {
				t.Errorf("%s: no %q", wanted.reason, r)
			}
		}
	}
}

func TestFiguresAreTabular(t *testing.T) {
	for f := range Face(Faces) {
		_, want := Glyph(f, '0')
		for _, r := range "123456789" {
			if _, got := Glyph(f, r); got != want {
				t.Errorf("face %d: figure %c is %d wide, 0 is %d", f, r, got, want)
			}
		}
	}
}

// The heights of letters are read off the outlines.
func TestHeights(t *testing.T) {
	for f := range Face(Faces) {
		parsed, err := sfnt.Parse(inflate(t, f))
		if err != nil {
			t.Fatal(err)
		}
		top, bottom := extent(t, parsed, "HE")
		if top != capHeight || bottom != 0 {
			t.Errorf("face %d: capitals from %d to %d, said 0 to %d", f, bottom, top, capHeight)
		}
		if got := stem(t, parsed); got != Embedded(f).StemWidth {
			t.Errorf("face %d: stem of I %d, said %d", f, got, Embedded(f).StemWidth)
		}
		top, bottom = extent(t, parsed, "bdg")
		if top != ascent || -bottom > descent {
			t.Errorf("face %d: letters from %d to %d, said %d to %d", f, bottom, top, -descent, ascent)
		}
	}
}

func extent(t *testing.T, f *sfnt.Font, letters string) (top, bottom int) {
	t.Helper()
	var buffer sfnt.Buffer
	for _, r := range letters {
		id, err := f.GlyphIndex(&buffer, r)
		if err != nil {
			t.Fatal(err)
		}
		segments, err := f.LoadGlyph(&buffer, id, fixed.Int26_6(UnitsPerEm), nil)
		if err != nil {
			t.Fatal(err)
		}
		box := segments.Bounds()
		top, bottom = max(top, -int(box.Min.Y)), min(bottom, -int(box.Max.Y))
	}
	return top, bottom
}

// stem is how wide the letter I is: one upright stroke in a sans.
func stem(t *testing.T, f *sfnt.Font) int {
	t.Helper()
	var buffer sfnt.Buffer
	id, err := f.GlyphIndex(&buffer, 'I')
	if err != nil {
		t.Fatal(err)
	}
	segments, err := f.LoadGlyph(&buffer, id, fixed.Int26_6(UnitsPerEm), nil)
	if err != nil {
		t.Fatal(err)
	}
	box := segments.Bounds()
	return int(box.Max.X - box.Min.X)
}

func TestWidth(t *testing.T) {
	for _, c := range []struct {
		reason, s string
		em, want  measure.Length
	}{
		{"nothing is nothing wide", "", 3 * mm, 0},
		{"one figure is 1172/2048 em", "0", 2048, 1172},
		{"widths add up without kerning", "00", 2048, 2344},
		{"rounded once, half away from zero", "0", 1, 1},
		{"a lacking character is as wide as the replacement", "漢", 2048, Width(Regular, "\uFFFD", 2048)},
		{"a broken byte too", "\xff", 2048, Width(Regular, "\uFFFD", 2048)},
	} {
		if got := Width(Regular, c.s, c.em); got != c.want {
			t.Errorf("%s: Width(%q, %d) = %d, want %d", c.reason, c.s, c.em, got, c.want)
		}
	}
}

func TestEmForGivesCapitalsOfThatHeight(t *testing.T) {
	for height := measure.Length(1); height < 20*mm; height += 123_457 {
		if got := CapHeight(Regular, EmFor(height)); got < height-1 || got > height+1 {
			t.Fatalf("EmFor(%d): capitals %d", height, got)
		}
	}
}

func TestFit(t *testing.T) {
	em := 3 * mm
	for _, c := range []struct {
		reason, s, room, want string // room is a text that is exactly as wide
	}{
		{"fits", "Tea tin", "Tea tin", "Tea tin"},
		{"cut", "Tea tin, green", "Tea t…", "Tea t…"},
		{"no blank before the ellipsis", "Tea tin", "Tea …", "Tea…"},
		{"only the ellipsis", "Tea tin", "…", "…"},
		{"nothing fits", "Tea tin", "", ""},
		{"cut between characters, not bytes", "éééé", "é…", "é…"},
	} {
		room := Width(Regular, c.room, em)
		got := Fit(Regular, c.s, em, room)
		if got != c.want || Width(Regular, got, em) > room {
			t.Errorf("%s: Fit(%q) in the room of %q = %q, want %q", c.reason, c.s, c.room, got, c.want)
		}
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct {
		reason, in, want string
		lacking          string
	}{
		{"kept as it is", "Été ⅜″ ☐", "Été ⅜″ ☐", ""},
		{"control characters", "a\tb\x00", "a\uFFFDb\uFFFD", "\t\x00"},
		{"an emoji, beyond the basic plane", "🌱x🌱", "\uFFFDx\uFFFD", "🌱"},
		{"a right-to-left script", "שלום", "\uFFFD\uFFFD\uFFFD\uFFFD", "שלום"},
		{"a script the faces lack", "漢a", "\uFFFDa", "漢"},
		{"direction marks", "a\u202Eb", "a\uFFFDb", "\u202E"},
		{"accents written apart from their letters", "The\u0301 vert", "Th\u00e9 vert", ""},
		{"broken UTF-8", "a\xc3", "a\uFFFD", "\uFFFD"},
	} {
		got, lacking := Clean(c.in)
		if got != c.want || string(lacking) != c.lacking {
			t.Errorf("%s: Clean(%q) = %q, %q, want %q, %q", c.reason, c.in, got, string(lacking), c.want, c.lacking)
		}
	}
}

func FuzzFitAndClean(f *testing.F) {
	f.Add("Tea tin", int64(5*mm))
	f.Add("\xff🌱", int64(0))
	f.Fuzz(func(t *testing.T, s string, width int64) {
		width %= int64(measure.Metre)
		clean, _ := Clean(s)
		if again, lacking := Clean(clean); again != clean || (len(lacking) > 0) != strings.ContainsRune(clean, Replacement) {
			t.Errorf("Clean(%q) = %q, then %q", s, clean, again)
		}
		fitted := Fit(Bold, clean, 3*mm, measure.Length(width))
		if fitted != "" && Width(Bold, fitted, 3*mm) > measure.Length(width) {
			t.Errorf("Fit(%q, %d) = %q is too wide", clean, width, fitted)
		}
	})
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		Width(Regular, "SEED-TOM Tomato ‘Larkfield’ 4′ 6½″", 3*mm)
	}
}
