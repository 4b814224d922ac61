package list

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

var (
	frame   = &parts.Part{ID: "frame", Kind: parts.Frame, Weight: 40 * measure.Kilogram}
	casters = &parts.Part{ID: "casters", Kind: parts.Stand, Weight: 2 * measure.Kilogram, Stand: &parts.StandSpec{Feet: 4}}
	floor   = &parts.Part{ID: "floor", Kind: parts.Stand, Stand: &parts.StandSpec{}}
	grid    = &parts.Part{ID: "grid", Kind: parts.Panel, Weight: 5 * measure.Kilogram}
	short   = &parts.Part{ID: "short", Kind: parts.Hook, Usable: 4 * measure.Inch, Weight: 100 * measure.Gram, Pack: 10}
	long    = &parts.Part{ID: "long", Kind: parts.Hook, Usable: 8 * measure.Inch, Weight: 150 * measure.Gram, Pack: 10}
	shelf   = &parts.Part{ID: "shelf", Kind: parts.Shelf, Weight: 3 * measure.Kilogram, Pack: 1}
	bracket = &parts.Part{ID: "bracket", Kind: parts.Bracket, Weight: 500 * measure.Gram, Pack: 2}
	rail    = &parts.Part{ID: "rail", Kind: parts.Rail, Weight: measure.Kilogram}
	strip   = &parts.Part{ID: "strip", Kind: parts.Strip, Weight: 960 * measure.Gram, Width: 96 * measure.Inch,
		Cut: &parts.Cut{From: &parts.Stock{Kerf: measure.Inch / 8, Sizes: []parts.StockSize{{Length: 96 * measure.Inch}}}}}
	// A shelf cut from a sheet, its grain from front to back, put up with screws.
	board = &parts.Part{ID: "board", Kind: parts.Shelf, Weight: 2 * measure.Kilogram, Width: 24 * measure.Inch, Depth: 12 * measure.Inch,
		Cut: &parts.Cut{From: &parts.Stock{Grain: true, Sizes: []parts.StockSize{{Length: 96 * measure.Inch, Width: 48 * measure.Inch}}}, Grain: parts.GrainDepth}}
	tube = &parts.Part{ID: "tube", Kind: parts.Rail, Width: 25 * measure.Inch,
		Cut: &parts.Cut{From: strip.Cut.From, Length: 23 * measure.Inch}}
)

func pieces(part *parts.Part, n int) []*unit.Piece {
	list := make([]*unit.Piece, n)
	for i := range list {
		list[i] = &unit.Piece{Part: part}
	}
	return list
}

func strips(lengths ...measure.Length) []*unit.Piece {
	list := pieces(strip, len(lengths))
	for i, l := range lengths {
		list[i].Cut = l
	}
	return list
}

// dressed is a unit with a front in four rows and an empty back.
func dressed() *unit.Unit {
	jar := &goods.Product{SKU: "JAR", Weight: 500 * measure.Gram}
	front := &unit.Face{ID: plan.Front, Letter: "F", Rows: []*unit.Row{
		{Address: "F-1", Part: long, Pieces: pieces(long, 3)},
		{Address: "F-2", Part: short, Pieces: pieces(short, 11)},
		{Address: "F-3", Part: shelf, Pieces: pieces(shelf, 2), Brackets: pieces(bracket, 5),
			Extras:    strips(24*measure.Inch, 24*measure.Inch, 48*measure.Inch),
			Positions: []*unit.Position{{Address: "F-3-1", Product: jar, Units: 12}, {Address: "F-3-2", Product: jar, Units: 6}}},
		{Address: "F-4", Part: long, Pieces: pieces(long, 1)},
	}}
	return &unit.Unit{
		Plan: &plan.Plan{Restock: 7}, Frame: frame, Stand: casters, Faces: []*unit.Face{front, {ID: plan.Back, Letter: "B"}},
		Structure: []unit.Structural{{Part: frame}, {Part: casters}, {Part: casters}, {Part: casters}, {Part: casters},
			{Part: grid, Face: plan.Front, Bay: 1}, {Part: grid, Face: plan.Front, Bay: 2}},
	}
}

func TestPick(t *testing.T) {
	bare := func(n int) []Portion { return []Portion{{"", n, nil}} }
	front := func(n int, rows ...string) []Portion { return []Portion{{plan.Front, n, rows}} }
	want := []PickLine{
		{1, Structure, frame, 0, 1, 1, 40 * measure.Kilogram, nil, bare(1)},
		{2, Structure, casters, 0, 1, 1, 2 * measure.Kilogram, nil, bare(1)}, // a set, not four
		{3, Structure, grid, 0, 2, 2, 10 * measure.Kilogram, nil, bare(2)},
		{4, Shelving, bracket, 0, 5, 3, 2500 * measure.Gram, []string{"F-3"}, front(5, "F-3")}, // a started pack is a pack
		{5, Shelving, shelf, 0, 2, 2, 6 * measure.Kilogram, []string{"F-3"}, front(2, "F-3")},
		{6, Hooks, short, 0, 11, 2, 1100 * measure.Gram, []string{"F-2"}, front(11, "F-2")}, // shortest first, though hung lower
		{7, Hooks, long, 0, 4, 1, 600 * measure.Gram, []string{"F-1", "F-4"}, front(4, "F-1", "F-4")},
		{8, Other, strip, 24 * measure.Inch, 2, 0, 480 * measure.Gram, []string{"F-3"}, front(2, "F-3")}, // a line each length; from the saw, in no packs
		{9, Other, strip, 48 * measure.Inch, 1, 0, 480 * measure.Gram, []string{"F-3"}, front(1, "F-3")},
	}
	if diff := cmp.Diff(want, Pick(dressed()), same); diff != "" {
		t.Errorf("pick list (-want +got):\n%s", diff)
	}
}

var same = cmp.Comparer(func(a, b *parts.Part) bool { return a == b })

func TestPickFixed(t *testing.T) {
	u := dressed()
	u.Stand = floor
	for _, line := range Pick(u) {
		if line.Part == floor {
			t.Error("a unit that stands on nothing has a stand to pull")
		}
	}
}

func TestPacks(t *testing.T) {
	for _, c := range []struct {
		part   *parts.Part
		pieces int
		want   int
		reason string
	}{
		{short, 10, 1, "a full pack"},
		{short, 11, 2, "one more"},
		{rail, 3, 3, "a pack of none said is a pack of one"},
		{strip, 2, 0, "the saw delivers pieces, not packs"},
		{board, 2, 0, "from a sheet too"},
	} {
		if got := packs(&PickLine{Part: c.part, Quantity: c.pieces}); got != c.want {
			t.Errorf("%d of %s: %d packs, want %d: %s", c.pieces, c.part.ID, got, c.want, c.reason)
		}
	}
}

func TestCutTo(t *testing.T) {
	for _, c := range []struct {
		part                 *parts.Part
		cut                  measure.Length
		wantLong, wantAcross measure.Length
		reason               string
	}{
		{short, 0, 0, 0, "nothing is cut"},
		{strip, 48 * measure.Inch, 48 * measure.Inch, 0, "to the shelf it is fixed to"},
		{tube, 0, 23 * measure.Inch, 0, "what the part says, and not its width over all"},
		{board, 0, 12 * measure.Inch, 24 * measure.Inch, "along the grain first"},
	} {
		along, across := PickLine{Part: c.part, Cut: c.cut}.CutTo()
		if along != c.wantLong || across != c.wantAcross {
			t.Errorf("%s is cut to %s by %s, want %s by %s: %s", c.part.ID, along.MM(), across.MM(), c.wantLong.MM(), c.wantAcross.MM(), c.reason)
		}
	}
}

func TestBalloons(t *testing.T) {
	u := dressed()
	lines := Pick(u)
	balloon := Balloons(lines)
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, piece := range row.All() {
				n := balloon(piece.Part, piece.Cut)
				if n < 1 || n > len(lines) || lines[n-1].Part != piece.Part || lines[n-1].Cut != piece.Cut {
					t.Errorf("%s cut to %s has balloon %d", piece.Part.ID, piece.Cut.MM(), n)
				}
			}
		}
	}
	if n := balloon(rail, 0); n != 0 {
		t.Errorf("a part that is not on the unit has balloon %d", n)
	}
}

func TestSummarize(t *testing.T) {
	want := Summary{
		Faces: 2, DressedFaces: 1, PartKinds: 5, Pieces: 25, Products: 1, Positions: 2, Units: 18,
		Hardware: 11_160 * measure.Gram, Structure: 52 * measure.Kilogram, Goods: 9 * measure.Kilogram,
	}
	if diff := cmp.Diff(want, Summarize(dressed())); diff != "" {
		t.Errorf("summary (-want +got):\n%s", diff)
	}
}

func TestKey(t *testing.T) {
	var got []string
	for _, line := range Key(dressed()) {
		got = append(got, string(line.Face.ID)+" "+line.Row.Address+" "+line.Position.Address)
	}
	want := []string{"front F-3 F-3-1", "front F-3 F-3-2"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("key (-want +got):\n%s", diff)
	}
}
