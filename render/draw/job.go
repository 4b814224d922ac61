package draw

import (
	"fmt"
	"sort"
	"strings"

	"setwright/layout/buy"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/picture"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
	"setwright/render/bars"
	"setwright/render/words"
)

// Job is everything the sheets of one pack are drawn from. It is not changed
// once made.
type Job struct {
	Unit     *unit.Unit
	Findings []diag.Finding // stops first, then cautions, then notes: as they are numbered, from 1
	Report   check.Report
	Words    *words.Words
	Cuts     []saw.Plan
	Purchase buy.Purchase

	Fingerprint string
	// Image returns a product's picture by its path, or nil if there is none. It
	// may be nil itself.
	Image func(path string) *picture.Picture

	pick     []list.PickLine
	balloon  func(part *parts.Part, cut measure.Length) int
	key      []list.KeyLine
	stock    []list.StockLine       // by name, as the language sorts
	symbols  map[string]bars.Symbol // the barcodes there are, by GTIN
	summary  list.Summary
	families []string // in the order of the positions
	system   measure.System
	stop     bool   // not for construction
	foot     string // what every sheet says in the place of the cautions, "" for those
}

// NewJob gathers what the sheets need of a unit and of what the checks say.
func NewJob(u *unit.Unit, findings []diag.Finding, report check.Report) *Job {
	j := &Job{
		Unit: u, Findings: graded(findings), Report: report,
		Words:   words.In(u.Plan.Language),
		pick:    list.Pick(u),
		key:     list.Key(u),
		stock:   list.Stock(u),
		summary: list.Summarize(u),
		system:  u.Plan.Measure,
	}
	sort.SliceStable(j.stock, func(a, b int) bool {
		return j.Words.SortKey(j.stock[a].Product.Name) < j.Words.SortKey(j.stock[b].Product.Name)
	})
	j.balloon = list.Balloons(j.pick)
	j.symbols = symbolsOf(j.stock)
	seen := map[string]bool{}
	for _, k := range j.key {
		if f := k.Position.Product.Family; !seen[f] {
			seen[f] = true
			j.families = append(j.families, f)
		}
	}
	sort.Strings(j.families)
	for _, f := range findings {
		j.stop = j.stop || f.Level >= diag.Stop
	}
	return j
}

// symbolsOf encodes every GTIN that has a symbol.
func symbolsOf(stock []list.StockLine) map[string]bars.Symbol {
	symbols := make(map[string]bars.Symbol, len(stock))
	for _, l := range stock {
		if s, ok := bars.Encode(l.Product.GTIN); ok {
			symbols[l.Product.GTIN] = s
		}
	}
	return symbols
}

// figure is a length as drawings print it, without its unit.
func (j *Job) figure(l measure.Length) string { return j.Words.Decimal(l.Figure(j.system)) }

// length is a length with its unit, as tables and sentences print it.
func (j *Job) length(l measure.Length) string { return j.figure(l) + "\u00a0" + j.unitName() }

// unitName is what the sheets' unit of length is called.
func (j *Job) unitName() string {
	if j.system == measure.Millimetres {
		return j.Words.Millimetre
	}
	return j.Words.Inch
}

// mass is a weight with its unit.
func (j *Job) mass(m measure.Mass) string {
	return strings.Replace(j.Words.Decimal(m.Text(j.system)), " ", "\u00a0", 1)
}

// slotName is what a slot of the face's panel is called: wire 18, groove 4.
func (j *Job) slotName(f *unit.Face, slot int) string {
	return fmt.Sprintf("%s %d", j.slotWord(f), slot)
}

func (j *Job) slotWord(f *unit.Face) string {
	switch f.Panel.Panel.Surface {
	case parts.Wire:
		return j.Words.Wire
	case parts.Slatwall:
		return j.Words.Groove
	case parts.Pegboard:
		return j.Words.Hole
	}
	return j.Words.Slot
}

// faceName is the face with a capital, as headings name it: Front face.
func (j *Job) faceName(id plan.FaceID) string {
	switch id {
	case plan.Front:
		return j.Words.FrontFace
	case plan.Right:
		return j.Words.RightFace
	case plan.Back:
		return j.Words.BackFace
	}
	return j.Words.LeftFace
}

// dressed lists the faces that carry rows.
func (j *Job) dressed() []*unit.Face {
	var faces []*unit.Face
	for _, f := range j.Unit.Faces {
		if len(f.Rows) > 0 {
			faces = append(faces, f)
		}
	}
	return faces
}

// Faces lists the faces that get sheets: those the plan dresses, an empty one
// too, since the crew must know that it stays bare.
func (j *Job) Faces() []*unit.Face {
	var faces []*unit.Face
	for _, f := range j.Unit.Faces {
		if len(f.Rows) > 0 || j.declared(f.ID) {
			faces = append(faces, f)
		}
	}
	return faces
}

func (j *Job) declared(id plan.FaceID) bool {
	for _, d := range j.Unit.Plan.Dress {
		if d.Face == id {
			return true
		}
	}
	return false
}

// familyOf is the place of a product's family in the legend.
func (j *Job) familyOf(p *goods.Product) int {
	return sort.SearchStrings(j.families, p.Family)
}

// familyName is the family as the legend prints it.
func (j *Job) familyName(i int) string {
	if j.families[i] == "" {
		return j.Words.NoFamily
	}
	return j.families[i]
}

// partName is a part as lists name it, with the length it is cut to.
func (j *Job) partName(p *parts.Part, cut measure.Length) string {
	name := p.Name
	if name == "" {
		name = p.ID
	}
	if cut > 0 {
		name += ", " + fmt.Sprintf(j.Words.CutTo, j.length(cut))
	}
	return name
}
