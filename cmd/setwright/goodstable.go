package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

// The products of `setwright goods`, as tables and as JSON.

func writeProducts(w io.Writer, products []*goods.Product, in measure.System) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "SKU\tNAME\tFAMILY\tFORM\tWIDTH x HEIGHT x DEPTH\tWEIGHT\tGTIN\tCASE\tWEEKLY\tPRICE\tMIN-MAX")
	for _, p := range products {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", diag.OneLine(p.SKU), diag.OneLine(p.Name), family(p), p.Form,
			sidesText(in, p.Width, p.Height, p.Depth), weightText(p.Weight, in), dash(p.GTIN), count(p.Case), count(p.Weekly),
			dash(p.Price), facingLimits(p))
	}
	t.Flush() // into memory
}

func family(p *goods.Product) string { return dash(diag.OneLine(p.Family)) }

// sidesText is lengths as decimals, as goods files have them: cards are too thin
// for sixteenths and whole millimetres. "~" marks one that is rounded.
func sidesText(in measure.System, sides ...measure.Length) string {
	words := make([]string, len(sides))
	for i, l := range sides {
		words[i] = l.MM()
		if in == measure.Inches {
			words[i] = decimalInches(l)
		}
	}
	return strings.Join(words, " x ") + " " + in.String()
}

// decimalInches is a length to a ten thousandth, without zeros at the end.
func decimalInches(l measure.Length) string {
	const parts = 10_000
	n := (l*parts + measure.Inch/2) / measure.Inch
	text := strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%04d", n/parts, n%parts), "0"), ".")
	if n*measure.Inch != l*parts {
		return "~" + text
	}
	return text
}

// weightText is a weight in a unit small enough to tell packets apart.
func weightText(m measure.Mass, in measure.System) string {
	const pound, hundredthsOfOunce = 453_592, 28_349_523_125 // mg in the one, 1e-8 mg a hundredth of the other
	switch {
	case m == 0:
		return "-"
	case in == measure.Millimetres && m < measure.Kilogram:
		tenths := (m + measure.Gram/20) / (measure.Gram / 10)
		return fmt.Sprintf("%d.%d g", tenths/10, tenths%10)
	case in == measure.Inches && m < pound:
		n := (int64(m)*100_000_000 + hundredthsOfOunce/2) / hundredthsOfOunce
		return fmt.Sprintf("%d.%02d oz", n/100, n%100)
	}
	return m.Text(in)
}

// count is a number of units, or a dash where none is given.
func count(n int) string {
	if n == 0 {
		return "-"
	}
	return fmt.Sprint(n)
}

// facingLimits is the least and the most fronts.
func facingLimits(p *goods.Product) string {
	switch {
	case p.Min == 0 && p.Max == 0:
		return "-"
	case p.Max == 0:
		return fmt.Sprintf("%d-", p.Min)
	}
	return fmt.Sprintf("%d-%d", max(p.Min, 1), p.Max)
}

// writeTotals counts products, and the units they sell a week, by form and by
// family, families in the order in which they are first met.
func writeTotals(w io.Writer, products []*goods.Product) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	var forms, families []string
	for _, f := range goods.Forms() {
		forms = append(forms, string(f))
	}
	seen := map[string]bool{}
	for _, p := range products {
		if name := family(p); !seen[name] {
			seen[name] = true
			families = append(families, name)
		}
	}
	writeTotal(t, "FORM", forms, products, func(p *goods.Product) string { return string(p.Form) })
	writeTotal(t, "FAMILY", families, products, family)
	t.Flush() // into memory
}

func writeTotal(t io.Writer, head string, keys []string, products []*goods.Product, key func(*goods.Product) string) {
	number, weekly := map[string]int{}, map[string]int{}
	for _, p := range products {
		number[key(p)]++
		weekly[key(p)] += p.Weekly
	}
	fmt.Fprintf(t, "\n%s\tPRODUCTS\tWEEKLY\n", head)
	for _, k := range keys {
		if number[k] > 0 {
			fmt.Fprintf(t, "%s\t%d\t%s\n", k, number[k], count(weekly[k]))
		}
	}
}

type jsonGoods struct {
	Files    []jsonGoodsFile `json:"files"`
	Products []jsonProduct   `json:"products"`
	Findings []diag.Finding  `json:"findings"`
}

type jsonGoodsFile struct {
	File      string         `json:"file"`
	Format    string         `json:"format"`
	Encoding  string         `json:"encoding,omitempty"`
	Separator string         `json:"separator,omitempty"`
	Decimals  string         `json:"decimals,omitempty"`
	Measure   string         `json:"measure"`
	Columns   []jsonColumn   `json:"columns,omitempty"`
	Products  int            `json:"products"`
	Overrides []jsonOverride `json:"overrides,omitempty"`
}

type jsonColumn struct {
	Name  string `json:"name"`
	Unit  string `json:"unit,omitempty"`
	Known bool   `json:"known"`
}

type jsonOverride struct {
	SKU  string `json:"sku"`
	Line int    `json:"line"`
	Was  string `json:"was"`
}

type jsonProduct struct {
	SKU       string      `json:"sku"`
	Name      string      `json:"name"`
	Short     string      `json:"short,omitempty"`
	Family    string      `json:"family,omitempty"`
	Form      goods.Form  `json:"form"`
	Width     json.Number `json:"width"`
	Height    json.Number `json:"height"`
	Depth     json.Number `json:"depth"`
	Weight    json.Number `json:"weight,omitempty"`
	GTIN      string      `json:"gtin,omitempty"`
	Case      int         `json:"case,omitempty"`
	Weekly    int         `json:"weekly,omitempty"`
	Price     json.Number `json:"price,omitempty"`
	Cost      json.Number `json:"cost,omitempty"`
	Colour    string      `json:"colour,omitempty"`
	Image     string      `json:"image,omitempty"`
	Min       int         `json:"min,omitempty"`
	Max       int         `json:"max,omitempty"`
	Stack     int         `json:"stack,omitempty"`
	Look      int         `json:"look,omitempty"`
	Hole      json.Number `json:"hole,omitempty"`
	Sizes     []string    `json:"sizes,omitempty"`
	Breakable bool        `json:"breakable,omitempty"`
	Extra     []jsonExtra `json:"extra,omitempty"`
	At        string      `json:"at"`
}

type jsonExtra struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

func writeGoodsJSON(w io.Writer, r *goodsRead) error {
	// Lists without anything in them are [], not null.
	all := jsonGoods{Files: []jsonGoodsFile{}, Products: []jsonProduct{}, Findings: append([]diag.Finding{}, r.findings.All()...)}
	for _, f := range r.files {
		all.Files = append(all.Files, newJSONGoodsFile(f))
	}
	for _, p := range r.products {
		all.Products = append(all.Products, newJSONProduct(p))
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(all)
}

func newJSONGoodsFile(f goods.File) jsonGoodsFile {
	j := jsonGoodsFile{File: f.Name, Format: "yaml", Measure: f.Bare.String(), Products: f.Products}
	if d := f.CSV; d != nil {
		j.Format, j.Encoding, j.Decimals = "csv", d.Encoding, string(d.Decimals)
		if d.Separator != 0 {
			j.Separator = string(d.Separator)
		}
		for _, c := range d.Columns {
			j.Columns = append(j.Columns, jsonColumn{c.Name, c.Unit, c.Known})
		}
	}
	for _, o := range f.Over {
		j.Overrides = append(j.Overrides, jsonOverride{o.SKU, o.Now.Line, o.Was.String()})
	}
	return j
}

func newJSONProduct(p *goods.Product) jsonProduct {
	j := jsonProduct{
		SKU: p.SKU, Name: p.Name, Short: p.Short, Family: p.Family, Form: p.Form,
		Width: json.Number(p.Width.MM()), Height: json.Number(p.Height.MM()), Depth: json.Number(p.Depth.MM()),
		GTIN: p.GTIN, Case: p.Case, Weekly: p.Weekly, Colour: p.Colour, Image: p.Image, Min: p.Min, Max: p.Max,
		Stack: p.Stack, Look: p.Look, Sizes: p.Sizes, Breakable: p.Breakable, At: p.At.String(),
		Price: plainNumber(p.Price), Cost: plainNumber(p.Cost),
	}
	if p.Weight > 0 {
		j.Weight = json.Number(p.Weight.Kilograms())
	}
	if p.Hole > 0 {
		j.Hole = json.Number(p.Hole.MM())
	}
	for _, e := range p.Extra {
		j.Extra = append(j.Extra, jsonExtra(e))
	}
	return j
}

// plainNumber is a decimal number as JSON has it: without zeros in front, which
// a goods file may write.
func plainNumber(s string) json.Number {
	for len(s) > 1 && s[0] == '0' && s[1] != '.' {
		s = s[1:]
	}
	return json.Number(s)
}
