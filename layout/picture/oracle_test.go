package picture

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"setwright/layout/oracle"
)

// decoded is what libjpeg makes of a file, put upright: grey at one pixel for so
// many, with its size.
func decoded(t *testing.T, python, path string, by int) plane {
	t.Helper()
	const program = `
import sys
from PIL import Image, ImageOps
image = Image.open(sys.argv[1])
by = int(sys.argv[2])
image.draft("L", (image.width // by, image.height // by))
image = ImageOps.exif_transpose(image).convert("L")
sys.stdout.buffer.write(b"%d %d " % image.size + image.tobytes())`
	out, err := exec.Command(python, "-c", program, path, strconv.Itoa(by)).Output()
	if err != nil {
		t.Fatal(err)
	}
	parts := bytes.SplitN(out, []byte(" "), 3)
	w, _ := strconv.Atoi(string(parts[0]))
	h, _ := strconv.Atoi(string(parts[1]))
	if len(parts) != 3 || w*h != len(parts[2]) {
		t.Fatalf("%d bytes", len(out))
	}
	return plane{parts[2], w, 1, 1, 1}
}

// TestReducedLikeLibjpeg compares luma with that of libjpeg's own reduced
// decoding. Of one pixel a block both take the same mean; for more, libjpeg
// averages pixels where this leaves the finest out, which is near.
func TestReducedLikeLibjpeg(t *testing.T) {
	python := oracle.NeedPython(t, "PIL")
	for _, name := range []string{"444", "422", "420", "411", "grey", "restarts"} {
		for _, c := range []struct{ side, mean, most int }{{1, 50, 1}, {2, 1500, 60}, {4, 1500, 60}} {
			want := decoded(t, python, filepath.Join("testdata", name+".jpg"), blockSide/c.side)
			small := reduced(file(t, name), c.side)
			if small == nil {
				t.Fatalf("%s: not taken", name)
			}
			got := plane{depth: 1, stride: want.stride}
			for y := range len(want.pix) / want.stride {
				got.pix = append(got.pix, small.planes[0].pix[y*small.planes[0].stride:][:want.stride]...)
			}
			h := len(want.pix) / want.stride
			mean, most := apart(t, &raster{want.stride, h, []plane{got}}, &raster{want.stride, h, []plane{want}})
			if mean > c.mean || most > c.most {
				t.Errorf("%s, %d a block: %d thousandths apart on average, %d at most", name, c.side, mean, most)
			}
		}
	}
}

// TestUprightLikePillow puts a file that lies on its side upright as Pillow
// does.
func TestUprightLikePillow(t *testing.T) {
	python := oracle.NeedPython(t, "PIL")
	want := decoded(t, python, filepath.Join("testdata", "turned.jpg"), 1)
	p, err := new(Reader).Read(file(t, "turned"), 999, 999)
	if err != nil {
		t.Fatal(err)
	}
	h := len(want.pix) / want.stride
	got := &raster{p.raster.width, p.raster.height, p.raster.planes[:1]}
	if mean, most := apart(t, got, &raster{want.stride, h, []plane{want}}); mean > 100 || most > 2 {
		t.Errorf("%d thousandths apart on average, %d at most", mean, most)
	}
}
