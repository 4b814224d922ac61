package archive

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
)

// ContentsName is the attached file that tells of all others.
const ContentsName = "contents.json"

// format is the version of the contents: it goes up when a field changes its
// meaning or goes away.
const format = 1

// longestSide is more pixels than any picture that is read has one way.
const longestSide = 100_000_000

// Contents is what a pack says of itself, as JSON. All it holds follows from
// what the pack was made of: the same sources, the same contents.
type Contents struct {
	Format      int      `json:"format"`
	Program     string   `json:"program"`         // name and version
	Command     string   `json:"command"`         // that made the pack: sheets, kit, compare, cut, reset
	Flags       []string `json:"flags,omitempty"` // of the command, as far as the sheets depend on them and they name no files
	Fingerprint string   `json:"fingerprint"`     // as on the sheets

	Plans []Plan `json:"plans"`           // in the order they were given; a cut list counts as one
	Parts *Plan  `json:"parts,omitempty"` // the house's parts list over those of all plans
	Stock *Plan  `json:"stock,omitempty"` // the house's stock file

	Files    []Entry   `json:"files"`              // all that is attached, but for the contents, in the order it is read
	Pictures []Picture `json:"pictures,omitempty"` // of products, which are not attached
	Sheets   []Sheet   `json:"sheets"`             // in order

	// Summary is what a timeline of packs shows of this one; nil if the pack is
	// not that of one plan.
	Summary *Summary `json:"summary,omitempty"`
}

// Plan is a file that was named to the command: what it is attached as, and
// what findings call it.
type Plan struct {
	File   string `json:"file"`
	Called string `json:"called"`
	Pack   string `json:"pack,omitempty"` // that it was read from, as findings call that
}

// Entry is an attached file.
type Entry struct {
	Name   string `json:"name"`
	Role   string `json:"role"`             // plan, parts, goods, stock, cut, built-in
	Called string `json:"called,omitempty"` // by the plan, where no file may be attached by that name
	Bytes  int    `json:"bytes"`
	SHA256 string `json:"sha256"` // FIPS 180-4, in hexadecimal digits
}

// Picture is a product's picture.
type Picture struct {
	Plan   int    `json:"plan"`   // whose picture it is, from 0
	Name   string `json:"name"`   // path from the plan's folder
	SHA256 string `json:"sha256"` // of the file
	Width  int    `json:"width"`  // pixels of the file, seen upright
	Height int    `json:"height"`
	Print  string `json:"print,omitempty"` // SHA-256 of what was embedded; "" if no sheet shows it
}

// Sheet is one page.
type Sheet struct {
	Name   string `json:"name"`
	Title  string `json:"title"`
	SHA256 string `json:"sha256"` // of all that it shows: sheet.Sum
}

// Sum is the SHA-256 of data in hexadecimal digits.
func Sum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// JSON writes the contents on one line.
func (c *Contents) JSON() []byte {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(c); err != nil {
		panic("archive: " + err.Error()) // it holds nothing that JSON does not
	}
	return out.Bytes()
}

// Read reads contents. Errors say what is wrong in words for a designer.
func Read(text []byte) (*Contents, error) {
	c := &Contents{}
	dec := json.NewDecoder(bytes.NewReader(text))
	if err := dec.Decode(c); err != nil {
		return nil, fmt.Errorf("the contents of the pack cannot be read: %v", err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("the contents of the pack cannot be read: more follows after their end")
	}
	return c, c.check()
}

// check refuses contents that no pack has.
func (c *Contents) check() error {
	switch {
	case c.Format > format:
		return fmt.Errorf("the contents of the pack are of format %d, which only a later version reads", c.Format)
	case c.Format < 1:
		return fmt.Errorf("the contents of the pack are of format %d, which there is not", c.Format)
	case len(c.Plans) == 0:
		return errors.New("the contents of the pack name no plan")
	}
	listed := func(p Plan) bool {
		return slices.ContainsFunc(c.Files, func(e Entry) bool { return e.Name == p.File })
	}
	for _, p := range slices.Concat(c.Plans, given(c.Parts), given(c.Stock)) {
		if !listed(p) {
			return fmt.Errorf("the contents of the pack name %q, which they do not list", p.File)
		}
	}
	for _, p := range c.Pictures {
		if p.Plan < 0 || p.Plan >= len(c.Plans) || min(p.Width, p.Height) < 1 || max(p.Width, p.Height) > longestSide {
			return fmt.Errorf("the contents of the pack have a picture %q of no plan or no size", p.Name)
		}
	}
	if c.Summary != nil {
		return c.Summary.check()
	}
	return nil
}

func given(p *Plan) []Plan {
	if p == nil {
		return nil
	}
	return []Plan{*p}
}
