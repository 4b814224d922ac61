package fonts

// Program is what a PDF says of an embedded face. Lengths are in font units.
type Program struct {
	Name           string // the PostScript name, tagged as a subset
	Bold           bool
	Deflated       string // the TrueType file under zlib
	Size           int    // of the file before it was deflated
	Box            [4]int // the box of all glyphs: left, bottom, right, top
	Ascent         int    // with accents, over the baseline
	Descent        int    // under the baseline, negative
	CapHeight      int
	StemWidth      int
	FamilyFallback string // CSS font-family list for writers that cannot embed
}

const cssFamilies = "'DejaVu Sans Condensed','DejaVu Sans','Roboto Condensed','Arial Narrow',Arial,sans-serif"

// Embedded returns the face as PDF embeds it.
func Embedded(f Face) Program {
	if f == Bold {
		return Program{
			Name: "SETBLD+DejaVuSansCondensed-Bold", Bold: true, Deflated: boldFile, Size: 41420,
			Box: [4]int{-801, -489, 2612, 1914}, Ascent: 1901, Descent: -483, CapHeight: capHeight,
			StemWidth: 347, FamilyFallback: cssFamilies,
		}
	}
	return Program{
		Name: "SETREG+DejaVuSansCondensed", Deflated: regularFile, Size: 43104,
		Box: [4]int{-758, -556, 2552, 2083}, Ascent: 1901, Descent: -483, CapHeight: capHeight,
		StemWidth: 182, FamilyFallback: cssFamilies,
	}
}
