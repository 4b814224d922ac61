// Package layout is the way from a plan file to a dressed, checked unit. It
// reads the plan, the parts and goods files it names and the images those name,
// resolves the plan and checks what came of it, and reports everything it
// finds in one go.
//
// The rooms below it: measure (lengths and weights), diag (findings), decode
// (YAML and CSV), parts, goods and plan (what was declared), unit (the dressed
// unit), check (rules on it), list (tables from it), saw (how stock is cut), buy
// (what to order of whom), solve (pure optimisers). None of them knows of paper.
package layout

import (
	"fmt"
	"io/fs"
	"slices"

	"setwright/layout/buy"
	"setwright/layout/check"
	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/parts"
	"setwright/layout/picture"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// PlanLimit is the most a plan may hold, in bytes.
const PlanLimit = decode.PlanLimit

// Project is a plan with all that belongs to it. It is not changed once Load
// has returned it.
type Project struct {
	Plan  *plan.Plan
	Parts *parts.List
	Goods *goods.Catalog
	// OnHand is what the stockroom holds already, from the plan's stock files.
	OnHand []parts.OnHand

	// Unit is nil if any finding is an Error.
	Unit *unit.Unit
	// Report is what the checks found; it is empty without a Unit.
	Report check.Report
	// Cuts is how the parts of the unit that are cut are sawn from their stock.
	Cuts []saw.Plan
	// Purchase is what to buy for the unit. It is empty if the plan names neither
	// stock files nor a parts list with prices.
	Purchase buy.Purchase
	// Findings are sorted by place, each once. They name files as the plan
	// does, from the plan's folder.
	Findings diag.List
	// Files are the files that were asked for, in that order, the plan first.
	Files []string
	// Fingerprint is the same for the same plan, parts and goods.
	Fingerprint string

	over     []partsFile
	builtIn  []parts.File
	pictures Pictures // asked before files; may be nil
	sources  []Source
	images   []Image
	byPath   map[string]*picture.Picture
}

// Reader reads plans. It holds the built-in parts list, which is read once and
// not changed, so that many plans may be read at once by one Reader.
type Reader struct {
	builtIn  *parts.List
	files    []parts.File // that builtIn was read from
	over     []partsFile  // laid over the parts of every plan
	pictures Pictures     // asked before files; may be nil
}

type partsFile struct {
	name string
	text []byte
}

// NewReader reads what every plan starts from.
func NewReader() *Reader {
	r, err := NewReaderFrom(parts.BuiltInFiles())
	if err != nil {
		panic("layout: the built-in parts list: " + err.Error())
	}
	return r
}

// NewReaderFrom is NewReader with the files of another built-in parts list: that
// of another version. What is wrong with them is an error.
func NewReaderFrom(builtIn []parts.File) (*Reader, error) {
	list, err := parts.BuiltInFrom(builtIn)
	return &Reader{builtIn: list, files: builtIn}, err
}

// Over returns a Reader that lays one more parts list over those of every plan:
// a house's prices, say, which the plans do not name. Findings call it by name,
// which must not be that of a file in a plan's folder.
func (r *Reader) Over(name string, text []byte) *Reader {
	other := *r
	other.over = append(slices.Clip(r.over), partsFile{name, text})
	return &other
}

// Load reads the plan of that name and the files it names. Their names are
// relative to the plan's folder and never lead out of it. What is wrong with
// any of them is a finding, never an error.
func Load(fsys fs.FS, name string) *Project { return NewReader().Load(fsys, name) }

// Parse is Load for a plan whose text did not come from fsys; the files it
// names do. Findings call the plan by name.
func Parse(fsys fs.FS, name string, text []byte) *Project {
	return NewReader().Parse(fsys, name, text)
}

// Load is the function Load, for more plans than one.
func (r *Reader) Load(fsys fs.FS, name string) *Project {
	p := r.project()
	if text, ok := p.read(fsys, diag.Span{File: name}, name, PlanLimit); ok {
		p.parse(fsys, name, text)
	}
	p.tidy()
	return p
}

// Parse is the function Parse, for more plans than one.
func (r *Reader) Parse(fsys fs.FS, name string, text []byte) *Project {
	p := r.project()
	p.Files = []string{name}
	if len(text) > PlanLimit {
		p.Findings.Add(diag.Finding{Level: diag.Error, Code: "too-large", At: diag.Span{File: name},
			Message: fmt.Sprintf("the plan is larger than %d MB", PlanLimit>>20)})
	} else {
		p.parse(fsys, name, text)
	}
	p.tidy()
	return p
}

func (r *Reader) project() *Project {
	return &Project{Parts: r.builtIn, builtIn: r.files, over: r.over, pictures: r.pictures}
}

// parse goes as far as it can, so that one run reports what is wrong with every
// file.
func (p *Project) parse(fsys fs.FS, name string, text []byte) {
	p.sources = append(p.sources, Source{name, PlanRole, text})
	p.Plan = plan.Decode(name, text, &p.Findings)
	if p.Plan == nil {
		return
	}
	p.checkRuleIDs()
	partsSound := p.loadParts(fsys)
	goodsSound := p.loadGoods(fsys)
	p.loadOnHand(fsys)
	p.Fingerprint = p.fingerprint()
	dressed := unit.Resolve(p.Plan, p.Parts, p.Goods)
	p.loadImages(fsys, dressed.Unit)
	p.judge(dressed, partsSound, goodsSound)
}

// checkRuleIDs reports settings of rules that there are not.
func (p *Project) checkRuleIDs() {
	if len(p.Plan.Rules) == 0 {
		return
	}
	var ids []string
	for _, r := range check.Rules() {
		ids = append(ids, r.ID)
	}
	for _, set := range p.Plan.Rules {
		if !slices.Contains(ids, set.ID.Name) {
			p.Findings.Add(diag.Finding{Level: diag.Error, Code: "unknown-rule", At: set.ID.At,
				Message:  fmt.Sprintf("there is no rule %q", set.ID.Name),
				Expected: "a rule's id: setwright rules lists them", Fix: decode.Suggest(set.ID.Name, ids)})
		}
	}
}

// loadParts reads the house's parts lists over the built-in one, then what is
// laid over all plans, and reports whether all of them are sound.
func (p *Project) loadParts(fsys fs.FS) bool {
	before := p.Findings.Count(diag.Error)
	for _, ref := range p.Plan.PartsFiles {
		if text, ok := p.source(fsys, ref, PartsRole, decode.PartsLimit); ok {
			p.Parts = parts.Load(p.Parts, slashed(ref.Name), text, &p.Findings)
		}
	}
	for _, f := range p.over {
		p.sources = append(p.sources, Source{f.name, HouseRole, f.text})
		p.Parts = parts.Load(p.Parts, f.name, f.text, &p.Findings)
	}
	return p.Findings.Count(diag.Error) == before
}

func (p *Project) loadGoods(fsys fs.FS) bool {
	before := p.Findings.Count(diag.Error)
	p.Goods = goods.NewCatalog()
	for _, ref := range p.Plan.GoodsFiles {
		if text, ok := p.source(fsys, ref, GoodsRole, decode.GoodsLimit); ok {
			goods.Load(p.Goods, slashed(ref.Name), text, p.Plan.Measure, &p.Findings)
		}
	}
	p.Findings.Add(p.Goods.SameCodes()...)
	return p.Findings.Count(diag.Error) == before
}

// loadOnHand reads what is in the stockroom, after the parts it is of.
func (p *Project) loadOnHand(fsys fs.FS) {
	for _, ref := range p.Plan.StockFiles {
		if text, ok := p.source(fsys, ref, StockRole, decode.PartsLimit); ok {
			p.OnHand = append(p.OnHand, parts.LoadOnHand(p.Parts, slashed(ref.Name), text, p.Plan.Measure, &p.Findings)...)
		}
	}
}

// judge takes what came of resolving the plan and checks the unit. A plan with
// errors is resolved too, for the errors that only show there; but what is
// unknown because its own file could not be read is not reported a second time.
func (p *Project) judge(result unit.Result, partsSound, goodsSound bool) {
	sound := !p.Findings.Has(diag.Error)
	for _, f := range result.Findings.All() {
		switch {
		case f.Code == "unknown-part" && !partsSound, (f.Code == "unknown-goods" || f.Code == "unknown-family") && !goodsSound:
		case sound || f.Level == diag.Error:
			p.Findings.Add(f)
		}
	}
	if p.Findings.Has(diag.Error) || result.Unit == nil {
		return
	}
	p.Unit = result.Unit
	p.Report = check.Run(p.Unit)
	p.Findings.Add(p.Report.Findings...)
	pick := list.Pick(p.Unit)
	cuts, found := list.Cuts(p.Unit, pick, p.OnHand)
	p.Cuts = cuts
	p.Findings.Add(found...)
	p.buy(list.Items(p.Unit, pick, p.Cuts, p.OnHand))
}

// buy works out what to order, if anything says what is on hand or what parts
// cost.
func (p *Project) buy(items []buy.Item) {
	priced := slices.ContainsFunc(items, func(i buy.Item) bool { return len(i.Buying.Packs) > 0 })
	if len(p.Plan.StockFiles) == 0 && !priced {
		return
	}
	purchase, found := buy.Plan(items, p.Parts, p.Plan.Measure)
	p.Purchase = purchase
	if len(p.Plan.StockFiles) > 0 {
		found = append(found, purchase.Shortage(p.Plan.Measure)...)
	}
	for _, f := range found {
		if f.At == (diag.Span{}) {
			f.At = p.boughtAt()
		}
		p.Findings.Add(f)
	}
}

// boughtAt is where the plan says what is on hand, or what parts cost.
func (p *Project) boughtAt() diag.Span {
	for _, files := range [][]plan.Ref{p.Plan.StockFiles, p.Plan.PartsFiles} {
		if len(files) > 0 {
			return files[0].At
		}
	}
	return p.Plan.Unit.At
}

// read reads one file of the project, noting that it was asked for.
func (p *Project) read(fsys fs.FS, at diag.Span, name string, limit int64) ([]byte, bool) {
	p.asked(name)
	return decode.Read(fsys, name, limit, at, &p.Findings)
}

// source reads one file that the plan names and keeps its text.
func (p *Project) source(fsys fs.FS, ref plan.Ref, role Role, limit int64) ([]byte, bool) {
	text, ok := p.read(fsys, ref.At, ref.Name, limit)
	if ok {
		p.sources = append(p.sources, Source{slashed(ref.Name), role, text})
	}
	return text, ok
}

// fingerprint is that of all sources.
func (p *Project) fingerprint() string {
	texts := make([][]byte, len(p.sources))
	for i, s := range p.sources {
		texts[i] = s.Text
	}
	return plan.Fingerprint(texts...)
}

// asked notes that a file was asked for.
func (p *Project) asked(name string) {
	if clean, ok := decode.Clean(name); ok {
		p.Files = append(p.Files, clean)
	}
}

// slashed is the name that findings give a file which has been read.
func slashed(name string) string {
	clean, _ := decode.Clean(name)
	return clean
}

func (p *Project) tidy() {
	p.Findings.Sort()
	p.Findings.Dedupe()
}
