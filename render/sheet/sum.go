package sheet

import (
	"crypto/sha256"
	"encoding/binary"

	"setwright/layout/measure"
)

// Sum is the SHA-256 (FIPS 180-4) of all that a sheet shows and is called: two
// sheets with one sum are drawn alike to the nanometre. Pictures holds the sum of
// each picture's data by its key.
func Sum(s *Sheet, pictures map[string]string) [sha256.Size]byte {
	h := hasher{pictures: pictures}
	h.text(s.Name)
	h.text(s.Title)
	h.number(int64(s.Depth))
	h.lengths(s.Width, s.Height)
	for _, item := range s.Items {
		h.item(item)
	}
	return sha256.Sum256(h.all)
}

// hasher is what is summed: each kind of item begins with a number of its own,
// each text and list with its length, so that no two sheets read alike.
type hasher struct {
	all      []byte
	pictures map[string]string
}

func (h *hasher) item(item Item) {
	switch it := item.(type) {
	case Line:
		h.number(1)
		h.points(it.From, it.To)
		h.stroke(&it.Stroke)
	case Path:
		h.number(2)
		h.flag(it.Closed)
		h.number(int64(len(it.Points)))
		h.points(it.Points...)
		h.stroke(it.Stroke)
		h.fill(it.Fill)
	case Boxes:
		h.number(3)
		h.number(int64(len(it.List)))
		for _, r := range it.List {
			h.points(r.Min, r.Max)
		}
		h.fill(&it.Fill)
	case Circle:
		h.number(4)
		h.points(it.Center)
		h.lengths(it.Radius)
		h.stroke(it.Stroke)
		h.fill(it.Fill)
	case Text:
		h.number(5)
		h.points(it.At)
		h.text(it.S)
		h.number(int64(it.Face))
		h.lengths(it.Size)
		h.number(int64(it.Anchor))
		h.flag(it.Up)
		h.fill(&it.Color)
	case Image:
		h.number(6)
		h.points(it.Box.Min, it.Box.Max)
		h.text(it.Key)
		h.text(h.pictures[it.Key])
		h.text(it.Alt)
	case Link:
		h.number(7)
		h.points(it.Box.Min, it.Box.Max)
		h.text(it.To)
	}
}

func (h *hasher) number(n int64) { h.all = binary.BigEndian.AppendUint64(h.all, uint64(n)) }

func (h *hasher) flag(set bool) {
	if set {
		h.number(1)
	} else {
		h.number(0)
	}
}

func (h *hasher) text(s string) {
	h.number(int64(len(s)))
	h.all = append(h.all, s...)
}

func (h *hasher) lengths(list ...measure.Length) {
	for _, l := range list {
		h.number(int64(l))
	}
}

func (h *hasher) points(list ...Point) {
	for _, p := range list {
		h.lengths(p.X, p.Y)
	}
}

func (h *hasher) stroke(s *Stroke) {
	h.flag(s != nil)
	if s != nil {
		h.lengths(s.Width)
		h.fill(&s.Color)
		h.number(int64(len(s.Dash)))
		h.lengths(s.Dash...)
	}
}

func (h *hasher) fill(c *Color) {
	h.flag(c != nil)
	if c != nil {
		h.all = append(h.all, c.R, c.G, c.B)
	}
}
