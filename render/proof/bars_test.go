package proof

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/oracle"
	"setwright/render/sheet"
)

// What a barcode's modules say, by the tables of GS1 General Specifications,
// section 5.2.1.2: a digit's modules of number set A; those of set C are the same
// with bars and spaces exchanged, those of set B are C's backwards. Which digits
// of the left half are of set B tells an EAN-13's first digit.
var (
	setA  = []string{"0001101", "0011001", "0010011", "0111101", "0100011", "0110001", "0101111", "0111011", "0110111", "0001011"}
	first = []string{"AAAAAA", "AABABB", "AABBAB", "AABBBA", "ABAABB", "ABBAAB", "ABBBAA", "ABABAB", "ABABBA", "ABBABA"}
)

// decode reads the modules of an EAN-13 or EAN-8, 1 for a bar.
func decode(modules string) (string, error) {
	half := map[int]int{95: 6, 67: 4}[len(modules)]
	if half == 0 {
		return "", fmt.Errorf("%d modules", len(modules))
	}
	middle := 3 + 7*half
	if modules[:3] != "101" || modules[middle:middle+5] != "01010" || modules[len(modules)-3:] != "101" {
		return "", fmt.Errorf("no guards in %s", modules)
	}
	digits, sets := "", ""
	for i := range 2 * half {
		from := 3 + 7*i
		if i >= half {
			from += 5
		}
		d, set := digit(modules[from : from+7])
		if d < 0 || (i >= half) != (set == 'C') {
			return "", fmt.Errorf("digit %d of %s", i, modules)
		}
		digits += strconv.Itoa(d)
		if i < half {
			sets += string(set)
		}
	}
	if half == 4 {
		return digits, nil
	}
	return strconv.Itoa(slices.Index(first, sets)) + digits, nil
}

// digit reads seven modules, and in which number set they are.
func digit(modules string) (int, byte) {
	exchanged, backwards := make([]byte, 7), make([]byte, 7)
	for i := range 7 {
		exchanged[i] = modules[i] ^ '0' ^ '1'
		backwards[6-i] = exchanged[i]
	}
	for set, as := range map[byte]string{'A': modules, 'B': string(backwards), 'C': string(exchanged)} {
		if d := slices.Index(setA, as); d >= 0 {
			return d, set
		}
	}
	return -1, 0
}

// symbol is a barcode as drawn.
type symbol struct {
	bars    []sheet.Rect
	modules string
	module  measure.Length
	height  measure.Length // of the shortest bar
}

// symbolOf measures bars drawn in whole modules, the guard's one module wide.
func symbolOf(b sheet.Boxes) (s symbol, err error) {
	s = symbol{bars: b.List, module: b.List[0].Max.X - b.List[0].Min.X, height: b.List[0].Max.Y - b.List[0].Min.Y}
	at := b.List[0].Min.X
	for _, bar := range b.List {
		s.height = min(s.height, bar.Max.Y-bar.Min.Y)
		if bar.Min.Y != b.List[0].Min.Y || (bar.Min.X-at)%s.module != 0 || (bar.Max.X-bar.Min.X)%s.module != 0 {
			return s, fmt.Errorf("a bar at %v is off its module of %s mm", bar, s.module.MM())
		}
		s.modules += strings.Repeat("0", int((bar.Min.X-at)/s.module)) + strings.Repeat("1", int((bar.Max.X-bar.Min.X)/s.module))
		at = bar.Max.X
	}
	return s, nil
}

// quiet are the zones beside the bars that stay blank (GS1 General
// Specifications, section 5.2.3.4): 11 modules left and 7 right of an EAN-13, 9
// on both sides of a UPC-A, 7 of an EAN-8.
func (s symbol) quiet(gtin string) [2]sheet.Rect {
	left, right := 11, 7
	switch len(gtin) {
	case 8:
		left, right = 7, 7
	case 12:
		left, right = 9, 9
	}
	f, l := s.bars[0], s.bars[len(s.bars)-1]
	bottom := f.Min.Y + s.height
	return [2]sheet.Rect{
		{Min: sheet.Point{X: f.Min.X - s.module*measure.Length(left), Y: f.Min.Y}, Max: sheet.Point{X: f.Min.X, Y: bottom}},
		{Min: sheet.Point{X: l.Max.X, Y: l.Min.Y}, Max: sheet.Point{X: l.Max.X + s.module*measure.Length(right), Y: bottom}},
	}
}

// ink lists the boxes that an item inks: an outline's sides, not what it holds.
func ink(item sheet.Item) []sheet.Rect {
	switch it := item.(type) {
	case sheet.Link:
		return nil
	case sheet.Boxes:
		return it.List
	case sheet.Path:
		if it.Fill != nil {
			break
		}
		var sides []sheet.Rect
		for i, from := range it.Points {
			if to := (i + 1) % len(it.Points); to > 0 || it.Closed {
				sides = append(sides, sheet.Bounds(sheet.Line{From: from, To: it.Points[to], Stroke: *it.Stroke}))
			}
		}
		return sides
	}
	return []sheet.Rect{sheet.Bounds(item)}
}

// shown is the number a GTIN's symbol says when it is read; "" if it has none.
// UPC-A is read as EAN-13 with a 0 before it.
func shown(gtin string) string {
	if len(gtin) == 14 {
		if gtin[0] != '0' {
			return ""
		}
		return gtin[1:]
	}
	if len(gtin) == 12 {
		return "0" + gtin
	}
	return gtin
}

// printed is the GTIN in the form its symbol has.
func printed(gtin string) string {
	if len(gtin) == 14 {
		return strings.TrimPrefix(gtin[1:], "0")
	}
	return gtin
}

// TestBarsSayTheNumber reads every barcode on key and tags back from the page
// model: bars in whole modules of GS1's size, of full height in the key, the
// number that of the position whose card or tag it is on, and no ink in the
// quiet zones.
func TestBarsSayTheNumber(t *testing.T) {
	read := map[int]int{}
	each(t, func(t *testing.T, p *plan) {
		gtins := p.gtins()
		for _, s := range p.pack.Sheets {
			missing := map[string]bool{}
			address := ""
			var inked []sheet.Rect
			for _, item := range s.Items {
				switch it := item.(type) {
				case sheet.Text:
					if positionAddress.MatchString(it.S) {
						address = it.S
						missing[address] = shown(gtins[address]) != ""
					}
				case sheet.Boxes:
					gtin := gtins[address]
					missing[address] = false
					read[len(gtin)]++
					if inked == nil {
						inked = inkOf(s)
					}
					checkSymbol(t, s.Name, it, inked, address, gtin)
				}
			}
			for address, none := range missing {
				if none && strings.HasPrefix(s.Name, "position-key") {
					t.Errorf("%s: %s has no barcode", s.Name, address)
				}
			}
		}
	})
	for _, digits := range []int{8, 12, 13, 14} {
		if read[digits] == 0 {
			t.Errorf("no barcode of a GTIN of %d digits read: %v", digits, read)
		}
	}
}

func inkOf(s *sheet.Sheet) (all []sheet.Rect) {
	for _, item := range s.Items {
		all = append(all, ink(item)...)
	}
	return all
}

func checkSymbol(t *testing.T, on string, b sheet.Boxes, inked []sheet.Rect, address, gtin string) {
	t.Helper()
	sym, err := symbolOf(b)
	if err != nil {
		t.Errorf("%s: %s: %v", on, address, err)
		return
	}
	if said, err := decode(sym.modules); err != nil || said != shown(gtin) {
		t.Errorf("%s: %s has %q (%v), its number is %q", on, address, said, err, gtin)
	}
	const um = measure.Micrometre
	full := 22_850 * um
	if len(gtin) == 8 {
		full = 18_230 * um
	}
	if sym.module < 264*um || sym.module > 660*um || strings.HasPrefix(on, "position-key") && sym.height < full {
		t.Errorf("%s: %s: a module of %s mm, %s mm high", on, address, sym.module.MM(), sym.height.MM())
	}
	for _, zone := range sym.quiet(printed(gtin)) {
		for _, mark := range inked {
			if zone.Overlaps(mark) {
				t.Errorf("%s: %s: something at %v lies in the quiet zone %v", on, address, mark, zone)
			}
		}
	}
}

// gtins is the number of each position's product, by address.
func (p *plan) gtins() map[string]string {
	at := map[string]string{}
	for _, k := range list.Key(p.project.Unit) {
		at[k.Position.Address] = k.Position.Product.GTIN
	}
	return at
}

// TestScannersReadTheBars prints every sheet with barcodes as a picture, at 300
// dots an inch and in grey at 150, and has zbarimg read it: it finds the numbers
// of the positions on the sheet, each as often as it is there, and no others.
// Scanning is slow: unless SETWRIGHT_ORACLES asks for all sheets, those with
// fewest positions, the last, stand for the others.
func TestScannersReadTheBars(t *testing.T) {
	pdftoppm, zbarimg := oracle.Need(t, "pdftoppm"), oracle.Need(t, "zbarimg")
	for _, name := range []string{"samples/spring", "testdata/odd/codes"} {
		t.Run(name, func(t *testing.T) {
			p := named(t, name)
			file, gtins, scanned := p.saved(t), p.gtins(), 0
			all := os.Getenv("SETWRIGHT_ORACLES") == "1"
			keys, cut := p.of(positionKey, ""), p.of(tags, "")
			for _, pg := range slices.Concat(keys, cut) {
				if !all && pg != keys[len(keys)-1] && pg != cut[len(cut)-1] {
					continue
				}
				var want []string
				for _, text := range pg.Texts {
					if number := shown(gtins[text.S]); number != "" {
						want = append(want, number)
					}
				}
				slices.Sort(want)
				for _, how := range [][]string{{"-r", "300"}, {"-r", "150", "-gray"}} {
					got := scan(t, pdftoppm, zbarimg, file, pg.number, how)
					if diff := gocmp.Diff(want, got); diff != "" {
						t.Errorf("sheet %d (%s), %v: (-unit +scanner): %s", pg.number, pg.title, how, diff)
					}
					scanned += len(got)
				}
			}
			t.Logf("%d barcodes scanned", scanned)
			if scanned == 0 {
				t.Error("no barcodes")
			}
		})
	}
}

// named is the plan of that name.
func named(t *testing.T, name string) *plan {
	t.Helper()
	list, err := plans()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list {
		if p.name == name {
			return p
		}
	}
	t.Fatalf("no plan %s", name)
	return nil
}

// scan lists the numbers a scanner finds on a page, sorted.
func scan(t *testing.T, pdftoppm, zbarimg, file string, page int, how []string) []string {
	t.Helper()
	n, picture := strconv.Itoa(page), filepath.Join(t.TempDir(), "sheet")
	output(t, pdftoppm, append(slices.Clone(how), "-png", "-singlefile", "-f", n, "-l", n, file, picture)...)
	// What it says of a missing message bus is none of ours.
	out, err := exec.Command(zbarimg, "-q", "--raw", "-Sdisable", "-Sean13.enable", "-Sean8.enable", picture+".png").Output()
	if err != nil {
		t.Fatalf("zbarimg: %v\n%s", err, out)
	}
	numbers := strings.Fields(string(bytes.TrimSpace(out)))
	slices.Sort(numbers)
	return numbers
}
