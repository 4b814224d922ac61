package proof

import (
	"encoding/json"
	"fmt"
	"math/big"
	"testing"
)

// nm is an exact length in nanometres, which JSON has as decimal millimetres.
type nm int64

func (l *nm) UnmarshalJSON(text []byte) error {
	r, ok := new(big.Rat).SetString(string(text))
	if !ok {
		return fmt.Errorf("%s is not a number", text)
	}
	r.Mul(r, big.NewRat(1_000_000, 1))
	if !r.IsInt() || !r.Num().IsInt64() {
		return fmt.Errorf("%s mm is not a whole number of nanometres", text)
	}
	*l = nm(r.Num().Int64())
	return nil
}

func (l nm) mm() float64 { return float64(l) / 1e6 }

// dressed is as much of the JSON of `setwright resolve --json` as the sheets show.
type dressed struct {
	Title, Fingerprint, Revision, Date, Measure string
	Bare, Extent                                solid
	Structure                                   []struct {
		Part, Face string
		Bay        int
		Box        solid
	}
	Faces []face
}

type solid struct{ X0, X1, Y0, Y1, Z0, Z1 nm }

type face struct {
	Face, Letter string
	Bays         int
	Width        nm
	Bottom, Top  nm
	DeckDepth    nm `json:"deck_depth"`
	Rows         []row
	SlotFirst    nm  `json:"slot_first"`
	SlotPitch    nm  `json:"slot_pitch"`
	SlotCount    int `json:"slot_count"`
}

type row struct {
	Address, Part, Kind      string
	Slot                     int
	Height                   nm
	Pieces, Brackets, Extras []piece
	Positions                []position
}

type box struct{ X0, X1, Y0, Y1, D0, D1 nm }

type piece struct {
	Part  string
	X     nm
	Slot  int
	Cut   nm
	Box   box
	Grips []struct{ X0, X1 nm }
}

type position struct {
	Address, SKU, Name string
	Facings, Units     int
	Height             nm
	Fronts             []struct{ Box box }
}

func (r row) all() []piece {
	return append(append(append([]piece(nil), r.Pieces...), r.Brackets...), r.Extras...)
}

// measured lists where the crew measures to for one piece: its middle if it
// holds on at one place, else each of its grips; nothing if it lies on others.
func (p piece) measured() []nm {
	switch len(p.Grips) {
	case 0:
		return nil
	case 1:
		return []nm{p.X}
	}
	var list []nm
	for _, g := range p.Grips {
		list = append(list, (g.X0+g.X1)/2)
	}
	return list
}

func TestExactMillimetres(t *testing.T) {
	for _, c := range []struct {
		text   string
		want   nm
		sound  bool
		reason string
	}{
		{"609.6", 609_600_000, true, "24 in: an inch is 25.4 mm exactly (NIST SP 811)"},
		{"-1.587500", -1_587_500, true, "trailing zeros"},
		{"0.000001", 1, true, "a nanometre"},
		{"0.0000001", 0, false, "finer than the model"},
		{`"5"`, 0, false, "a string"},
	} {
		var got nm
		if err := json.Unmarshal([]byte(c.text), &got); (err == nil) != c.sound || got != c.want {
			t.Errorf("%s: %s = %d, %v", c.reason, c.text, got, err)
		}
	}
}
