package unit

import (
	"bytes"
	"encoding/json"
	"io"

	"setwright/layout/measure"
)

// jsonFormat is the version of what WriteJSON writes; it goes up when a field
// changes its meaning or goes away.
const jsonFormat = 1

// WriteJSON writes the dressed unit for machines. Lengths are numbers of
// millimetres and weights of kilograms, both exact decimals; fields come in a
// fixed order and arrays in sheet order. Each field is described in
// DEVELOPERS.md.
func WriteJSON(w io.Writer, u *Unit, fingerprint string) error {
	var text bytes.Buffer
	out := json.NewEncoder(&text)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	if err := out.Encode(u.json(fingerprint)); err != nil {
		return err
	}
	_, err := w.Write(joinLeaves(text.Bytes()))
	return err
}

// joinLeaves puts every object and array that holds no other on one line: a box
// is read, and compared, as one thing. Only space between tokens is taken out.
func joinLeaves(text []byte) []byte {
	joined := make([]byte, 0, len(text))
	open, quoted := -1, false // where in joined the innermost bracket opened, -1 after it closed
	for i, c := range text {
		switch {
		case quoted:
			quoted = c != '"' || escaped(text[:i])
		case c == '"':
			quoted = true
		case c == '{' || c == '[':
			open = len(joined)
		case (c == '}' || c == ']') && open >= 0:
			lines := bytes.Split(joined[open:], []byte("\n"))
			joined = joined[:open]
			for n, line := range lines {
				line = bytes.TrimLeft(line, " ")
				if n > 1 && len(line) > 0 {
					joined = append(joined, ' ')
				}
				joined = append(joined, line...)
			}
			open = -1
		}
		joined = append(joined, c)
	}
	return joined
}

// escaped reports whether what follows text in a JSON string is escaped: an odd
// number of backslashes stands before it.
func escaped(text []byte) bool {
	return (len(text)-len(bytes.TrimRight(text, `\`)))%2 == 1
}

// number is an exact decimal that JSON writes as a number.
type number = json.Number

func mm(l measure.Length) number { return number(l.MM()) }

// mmOrNone leaves out a length that is zero for "none".
func mmOrNone(l measure.Length) number {
	if l == 0 {
		return ""
	}
	return mm(l)
}

type jsonUnit struct {
	Format      int              `json:"format"`
	Title       string           `json:"title"`
	Season      string           `json:"season,omitempty"`
	Revision    string           `json:"revision,omitempty"`
	Date        string           `json:"date,omitempty"`
	Fingerprint string           `json:"fingerprint"`
	Measure     string           `json:"measure"`
	Frame       string           `json:"frame"`
	Stand       string           `json:"stand"`
	Bare        jsonSolid        `json:"bare"`
	Extent      jsonSolid        `json:"extent"`
	Structure   []jsonStructural `json:"structure"`
	Faces       []jsonFace       `json:"faces"`
	Allotted    []jsonAllotted   `json:"allotted,omitempty"`
}

type jsonAllotted struct {
	Line    int           `json:"line"`
	Aim     string        `json:"aim"`
	Rows    []string      `json:"rows"`
	Value   int64         `json:"value"`
	Bound   int64         `json:"bound"`
	Given   []jsonGiven   `json:"given"`
	LeftOut []jsonLeftOut `json:"left_out,omitempty"`
}

type jsonGiven struct {
	Address string `json:"address"`
	SKU     string `json:"sku"`
	Why     string `json:"why"`
}

type jsonLeftOut struct {
	SKU string `json:"sku"`
	Why string `json:"why"`
}

type jsonSolid struct {
	X0 number `json:"x0"`
	X1 number `json:"x1"`
	Y0 number `json:"y0"`
	Y1 number `json:"y1"`
	Z0 number `json:"z0"`
	Z1 number `json:"z1"`
}

type jsonBox struct {
	X0 number `json:"x0"`
	X1 number `json:"x1"`
	Y0 number `json:"y0"`
	Y1 number `json:"y1"`
	D0 number `json:"d0"`
	D1 number `json:"d1"`
}

type jsonStructural struct {
	Part string    `json:"part"`
	Face string    `json:"face,omitempty"`
	Bay  int       `json:"bay,omitempty"`
	Box  jsonSolid `json:"box"`
}

type jsonFace struct {
	Face      string    `json:"face"`
	Letter    string    `json:"letter"`
	Panel     string    `json:"panel"`
	Bays      int       `json:"bays"`
	Width     number    `json:"width"`
	Bottom    number    `json:"bottom"`
	Top       number    `json:"top"`
	Deck      number    `json:"deck"`
	DeckDepth number    `json:"deck_depth"`
	Twin      string    `json:"twin,omitempty"`
	SlotFirst number    `json:"slot_first"`
	SlotPitch number    `json:"slot_pitch"`
	SlotCount int       `json:"slot_count"`
	Rows      []jsonRow `json:"rows"`
}

type jsonRow struct {
	Address   string         `json:"address"`
	Part      string         `json:"part"`
	Kind      string         `json:"kind"`
	Slot      int            `json:"slot"`
	Height    number         `json:"height"`
	X0        number         `json:"x0"`
	X1        number         `json:"x1"`
	Line      int            `json:"line"`
	Label     string         `json:"label,omitempty"`
	Copy      int            `json:"copy"`
	Mirrored  bool           `json:"mirrored,omitempty"`
	Pieces    []jsonPiece    `json:"pieces"`
	Brackets  []jsonPiece    `json:"brackets,omitempty"`
	Extras    []jsonPiece    `json:"extras,omitempty"`
	Positions []jsonPosition `json:"positions"`
}

type jsonPiece struct {
	Part  string     `json:"part"`
	X     number     `json:"x"`
	Slot  int        `json:"slot"`
	Cut   number     `json:"cut,omitempty"`
	Box   jsonBox    `json:"box"`
	Grips []jsonGrip `json:"grips,omitempty"`
}

type jsonGrip struct {
	Slot  int    `json:"slot"`
	Slots int    `json:"slots"`
	X0    number `json:"x0"`
	X1    number `json:"x1"`
}

type jsonPosition struct {
	Address string      `json:"address"`
	SKU     string      `json:"sku"`
	Name    string      `json:"name"`
	Facings int         `json:"facings"`
	Units   int         `json:"units"`
	Look    int         `json:"look"`
	Cases   int         `json:"cases,omitempty"`
	Days    int         `json:"days"`
	Height  number      `json:"height"`
	Weight  number      `json:"weight"`
	Fronts  []jsonFront `json:"fronts"`
}

type jsonFront struct {
	Piece int     `json:"piece"`
	High  int     `json:"high"`
	Deep  int     `json:"deep"`
	Units int     `json:"units"`
	Box   jsonBox `json:"box"`
}

func (u *Unit) json(fingerprint string) jsonUnit {
	p := u.Plan
	j := jsonUnit{
		Format: jsonFormat, Title: p.Title, Season: p.Season, Revision: p.Revision, Date: p.Date,
		Fingerprint: fingerprint, Measure: p.Measure.String(), Frame: u.Frame.ID, Stand: u.Stand.ID,
		Bare: u.Bare.json(), Extent: u.Extent.json(),
	}
	for _, s := range u.Structure {
		j.Structure = append(j.Structure, jsonStructural{s.Part.ID, string(s.Face), s.Bay, s.Solid.json()})
	}
	for _, f := range u.Faces {
		j.Faces = append(j.Faces, f.json())
	}
	for _, a := range u.Allotted {
		j.Allotted = append(j.Allotted, a.json())
	}
	return j
}

func (a *Allotted) json() jsonAllotted {
	j := jsonAllotted{Line: a.At.Line, Aim: string(a.Aim), Rows: a.Addresses(), Value: a.Value, Bound: a.Bound, Given: make([]jsonGiven, len(a.Given))}
	for i, g := range a.Given {
		j.Given[i] = jsonGiven{g.Position.Address, g.Position.Product.SKU, g.Why}
	}
	for _, out := range a.LeftOut {
		j.LeftOut = append(j.LeftOut, jsonLeftOut{out.Product.SKU, out.Why})
	}
	return j
}

func (s Solid) json() jsonSolid {
	return jsonSolid{mm(s.X0), mm(s.X1), mm(s.Y0), mm(s.Y1), mm(s.Z0), mm(s.Z1)}
}

func (b Box) json() jsonBox {
	return jsonBox{mm(b.X0), mm(b.X1), mm(b.Y0), mm(b.Y1), mm(b.D0), mm(b.D1)}
}

func (f *Face) json() jsonFace {
	panel := f.Panel.Panel
	j := jsonFace{
		Face: string(f.ID), Letter: f.Letter, Panel: f.Panel.ID, Bays: f.Bays,
		Width: mm(f.Width), Bottom: mm(f.Bottom), Top: mm(f.Top), Deck: mm(f.Deck), DeckDepth: mm(f.DeckDepth),
		Twin: string(f.Twin), SlotFirst: mm(f.SlotHeight(1)), SlotPitch: mm(panel.Pitch), SlotCount: panel.Count,
		Rows: make([]jsonRow, len(f.Rows)),
	}
	for i, row := range f.Rows {
		j.Rows[i] = row.json()
	}
	return j
}

func (r *Row) json() jsonRow {
	j := jsonRow{
		Address: r.Address, Part: r.Part.ID, Kind: string(r.Part.Kind), Slot: r.Slot, Height: mm(r.Height),
		X0: mm(r.X0), X1: mm(r.X1), Line: r.Declared.Span.Line, Label: r.Declared.Label,
		Copy: r.Copy, Mirrored: r.Mirrored,
		Pieces: jsonPieces(r.Pieces), Brackets: jsonPieces(r.Brackets), Extras: jsonPieces(r.Extras),
		Positions: make([]jsonPosition, len(r.Positions)),
	}
	index := make(map[*Piece]int, len(r.Pieces))
	for i, piece := range r.Pieces {
		index[piece] = i
	}
	for i, position := range r.Positions {
		j.Positions[i] = position.json(index)
	}
	return j
}

func jsonPieces(pieces []*Piece) []jsonPiece {
	list := make([]jsonPiece, len(pieces))
	for i, p := range pieces {
		list[i] = jsonPiece{Part: p.Part.ID, X: mm(p.X), Slot: p.Slot, Cut: mmOrNone(p.Cut), Box: p.Box.json()}
		for _, g := range p.Grips {
			list[i].Grips = append(list[i].Grips, jsonGrip{g.Slot, g.Slots, mm(g.X0), mm(g.X1)})
		}
	}
	return list
}

func (p *Position) json(index map[*Piece]int) jsonPosition {
	weight := measure.Mass(p.Units) * p.Product.Weight
	j := jsonPosition{
		Address: p.Address, SKU: p.Product.SKU, Name: p.Product.Name, Facings: len(p.Fronts), Units: p.Units,
		Look: p.Look, Cases: p.Cases, Days: p.Days, Height: mm(p.Height), Weight: number(weight.Kilograms()), Fronts: make([]jsonFront, len(p.Fronts)),
	}
	for i, f := range p.Fronts {
		j.Fronts[i] = jsonFront{index[f.Piece], f.High, f.Deep, f.Units, f.Box.json()}
	}
	return j
}
