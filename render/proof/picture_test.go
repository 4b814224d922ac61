package proof

import (
	"bytes"
	"image"
	_ "image/jpeg" // what samples are drawn from
	"image/png"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// Pictures are as fine on paper as sharp print, and no finer: 200 dots an inch
// and a pixel more, or up to a twentieth more where that spares a small file.
const leastFine, mostFine = 200, 210

// TestFineness wants every picture embedded in just the pixels that its largest
// showing needs, unless its file has no more.
func TestFineness(t *testing.T) {
	shown := 0
	each(t, func(t *testing.T, p *plan) {
		fine := map[int]bool{}
		for pass := range 2 { // first what is fine, then whether all is
			for _, pg := range p.sheets {
				for _, i := range pg.Images {
					wide, high := (i.Box.Max.X-i.Box.Min.X)/25.4, (i.Box.Max.Y-i.Box.Min.Y)/25.4
					w, h := float64(i.Width), float64(i.Height)
					across, up := p.project.Image(i.Alt).Size()
					all := i.Width == across && i.Height == up
					if w < wide*leastFine-1 && h < high*leastFine-1 && !all {
						t.Errorf("sheet %d: %s has %d × %d pixels on %.2f × %.2f in", pg.number, i.Alt, i.Width, i.Height, wide, high)
					}
					fine[i.Object] = fine[i.Object] || w <= wide*mostFine+1 && h <= high*mostFine+1
					if pass == 1 && !fine[i.Object] {
						t.Errorf("sheet %d: %s has %d × %d pixels, more than it ever shows", pg.number, i.Alt, i.Width, i.Height)
					}
					shown++
				}
			}
		}
	})
	if shown == 0 {
		t.Error("no plan has pictures")
	}
}

// TestPopplerFineness wants poppler to find the same dots an inch.
func TestPopplerFineness(t *testing.T) {
	pdfimages := oracle.Need(t, "pdfimages")
	line := regexp.MustCompile(`(?m)^ *\d+ +\d+ image +(\d+) +(\d+) .* (\d+) +0 +(\d+) +(\d+) `)
	eachPictured(t, func(t *testing.T, p *plan) {
		least := map[string]int{} // dots an inch of the largest showing, by object
		for _, m := range line.FindAllStringSubmatch(string(output(t, pdfimages, "-list", p.saved(t))), -1) {
			x, _ := strconv.Atoi(m[4])
			y, _ := strconv.Atoi(m[5])
			if d := x - y; d > 6 || d < -6 {
				t.Errorf("object %s: %d dots an inch across, %d up", m[3], x, y)
			}
			if n, known := least[m[3]]; !known || max(x, y) < n {
				least[m[3]] = max(x, y)
			}
		}
		if len(least) != p.doc.Pictures {
			t.Errorf("%d pictures, there are %d", len(least), p.doc.Pictures)
		}
		for object, n := range least {
			if n > mostFine+5 {
				t.Errorf("object %s: %d dots an inch", object, n)
			}
		}
	})
}

// TestPopplerColours takes the pictures out of the pack with poppler and holds
// their mean colours against those of the files, decoded whole by the library.
func TestPopplerColours(t *testing.T) {
	pdfimages := oracle.Need(t, "pdfimages")
	eachPictured(t, func(t *testing.T, p *plan) {
		base := filepath.Join(t.TempDir(), "p")
		output(t, pdfimages, "-png", p.saved(t), base)
		taken, _ := filepath.Glob(base + "-*.png")
		sort.Strings(taken)
		var shown []string
		for _, pg := range p.sheets {
			for _, i := range pg.Images {
				shown = append(shown, i.Alt)
			}
		}
		if len(taken) != len(shown) {
			t.Fatalf("%d pictures, there are %d", len(taken), len(shown))
		}
		for n, name := range taken {
			file, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			got, err := png.Decode(bytes.NewReader(file))
			if err != nil {
				t.Fatal(err)
			}
			source, err := fs.ReadFile(p.files, shown[n])
			if err != nil {
				t.Fatal(err)
			}
			want, _, err := image.Decode(bytes.NewReader(source))
			if err != nil {
				t.Fatal(err)
			}
			if a, b := meanColour(got), meanColour(want); math.Abs(a[0]-b[0])+math.Abs(a[1]-b[1])+math.Abs(a[2]-b[2]) > 3 {
				t.Errorf("%s: mean colour %.1f, that of the file %.1f", shown[n], a, b)
			}
		}
	})
}

// eachPictured runs a check on every sample that has pictures.
func eachPictured(t *testing.T, check func(t *testing.T, p *plan)) {
	t.Helper()
	each(t, func(t *testing.T, p *plan) {
		if !strings.HasPrefix(p.name, "samples/") || p.doc.Pictures == 0 {
			t.Skip("no pictures")
		}
		check(t, p)
	})
}

// meanColour is red, green and blue of 255, on white.
func meanColour(img image.Image) (mean [3]float64) {
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, blue, a := img.At(x, y).RGBA()
			for i, v := range []uint32{r, g, blue} {
				mean[i] += float64(v+0xFFFF-a) / 257 / float64(b.Dx()*b.Dy())
			}
		}
	}
	return mean
}
