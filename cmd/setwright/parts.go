package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"text/tabwriter"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

func partsCommand() *command {
	c := &command{
		name: "parts", args: "[FILTER]", summary: "list the parts at hand",
		most: 1, flags: newFlags("parts"),
		about: `
Prints the built-in parts, and those of any house list given with --list: id,
name, the surface the part mounts on (or, of a panel, is), size (width x depth x height), rated load and
pieces a pack. A rating marked "assumed" is the list's assumption, not a
maker's figure. With --json also how shelves bend and the wires goods hang from.

FILTER keeps the parts whose id, name, kind or mounting contains it.`,
		examples: `
setwright parts
setwright parts hook
setwright parts slatwall
setwright parts shelf --mm
setwright parts --list larkfield-parts.yaml --json`,
	}
	lists := c.flags.StringArray("list", nil, "add a house parts list from `FILE`")
	inMM := c.flags.Bool("mm", false, "print millimetres and kilograms")
	asJSON := c.flags.Bool("json", false, "print JSON, lengths in millimetres, weights in kilograms")
	c.run = func(args []string, s streams) error {
		list, err := partsAtHand(*lists, s)
		if err != nil {
			return err
		}
		chosen, err := filteredParts(list.All(), strings.Join(args, ""))
		if err != nil {
			return err
		}
		if *asJSON {
			return writePartsJSON(s.out, chosen)
		}
		system := measure.Inches
		if *inMM {
			system = measure.Millimetres
		}
		return writePartsTable(s.out, chosen, system)
	}
	return c
}

// partsAtHand is the built-in list with the house's own over it.
func partsAtHand(files []string, s streams) (*parts.List, error) {
	list, err := parts.BuiltIn()
	if err != nil {
		return nil, err
	}
	var findings diag.List
	for _, file := range files {
		if text, ok := readNamed(file, decode.PartsLimit, &findings); ok {
			list = parts.Load(list, filepath.ToSlash(file), text, &findings)
		}
	}
	if findings.Has(diag.Error) {
		findings.Sort()
		findings.WriteText(s.err)
		return nil, errReported
	}
	return list, nil
}

// mounts is the surface a part hangs on, or the one a panel offers.
func mounts(p *parts.Part) string {
	if p.Panel != nil {
		return string(p.Panel.Surface)
	}
	words := make([]string, len(p.Mounts))
	for i, m := range p.Mounts {
		words[i] = string(m)
	}
	return strings.Join(words, ", ")
}

func writePartsTable(w io.Writer, list []*parts.Part, system measure.System) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "ID\tNAME\tKIND\tSURFACE\tSIZE\tRATED\tPACK")
	for _, p := range list {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%d\n", p.ID, diag.OneLine(p.Name), p.Kind, dash(mounts(p)),
			size(p, system), rated(p, system), max(p.Pack, 1))
	}
	return t.Flush()
}

// size is width, depth and height as far as the part has them.
func size(p *parts.Part, system measure.System) string {
	if p.Cut != nil && p.Panel == nil {
		return "cut from " + p.Cut.From.ID
	}
	var words []string
	width, depth, height := p.Size()
	for _, l := range []measure.Length{width, depth, height} {
		if l != 0 {
			words = append(words, strings.TrimSuffix(l.Text(system), " "+system.String()))
		}
	}
	if words == nil {
		return "-"
	}
	return strings.Join(words, " x ") + " " + system.String()
}

func rated(p *parts.Part, system measure.System) string {
	switch {
	case p.Rated == 0:
		return "-"
	case p.Assumed:
		return p.Rated.Text(system) + " assumed"
	}
	return p.Rated.Text(system)
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

type jsonPart struct {
	ID      string          `json:"id"`
	Name    string          `json:"name"`
	Kind    parts.Kind      `json:"kind"`
	Mounts  []parts.Surface `json:"mounts,omitempty"`
	Surface parts.Surface   `json:"surface,omitempty"`
	Width   json.Number     `json:"width"`
	Depth   json.Number     `json:"depth"`
	Height  json.Number     `json:"height"`
	Weight  json.Number     `json:"weight"`
	Rated   json.Number     `json:"rated,omitempty"`
	Assumed bool            `json:"assumed,omitempty"`
	Pack    int             `json:"pack"`
	Bend    *jsonBend       `json:"bend,omitempty"`
	Wire    json.Number     `json:"wire,omitempty"`
}

// jsonBend is how a part bends: EI in N·mm², and what it says of its material.
type jsonBend struct {
	EI       json.Number `json:"ei"`
	Material string      `json:"material,omitempty"`
	E        json.Number `json:"e,omitempty"`
	Thick    json.Number `json:"thick,omitempty"`
	LongTerm json.Number `json:"long_term"`
	Stop     int         `json:"stop"`
	Caution  int         `json:"caution"`
	Source   string      `json:"source,omitempty"`
}

func newJSONBend(p *parts.Part) *jsonBend {
	s := p.Bend
	if s == nil {
		return nil
	}
	j := &jsonBend{EI: decimal(math.Round(s.Rigidity(p.Depth))), LongTerm: decimal(s.LongTerm()), Stop: s.Stop, Caution: s.Caution}
	if s.Material != nil {
		j.Material, j.E, j.Source = s.Material.Name, decimal(s.Material.E), s.Material.Source
	}
	if s.Thick > 0 {
		j.Thick = json.Number(s.Thick.MM())
	}
	return j
}

// decimal writes a number without an exponent.
func decimal(x float64) json.Number { return json.Number(strconv.FormatFloat(x, 'f', -1, 64)) }

func writePartsJSON(w io.Writer, list []*parts.Part) error {
	all := make([]jsonPart, len(list))
	for i, p := range list {
		width, depth, height := p.Size()
		j := jsonPart{
			ID: p.ID, Name: p.Name, Kind: p.Kind, Mounts: p.Mounts, Pack: max(p.Pack, 1),
			Width: json.Number(width.MM()), Depth: json.Number(depth.MM()),
			Height: json.Number(height.MM()), Weight: json.Number(p.Weight.Kilograms()),
		}
		if p.Panel != nil {
			j.Surface = p.Panel.Surface
		}
		if p.Rated > 0 {
			j.Rated, j.Assumed = json.Number(p.Rated.Kilograms()), p.Assumed
		}
		j.Bend = newJSONBend(p)
		if p.Wire > 0 {
			j.Wire = json.Number(p.Wire.MM())
		}
		all[i] = j
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(all)
}
