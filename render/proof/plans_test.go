package proof

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/unit"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
	"setwright/render/words"
)

const root = "../.."

// plan is a plan file taken through the whole pipeline, and its PDF read back.
type plan struct {
	name    string // samples/spring, or samples/spring-a4-fr
	files   fs.FS
	paper   string // other than the plan's own, "" if it is as written
	tongue  string // its language then
	project *layout.Project
	pack    *sheet.Pack
	file    []byte
	doc     *pdftest.Document
	dump    []byte // what resolve --json writes
	unit    dressed
	words   *words.Words
	sheets  []*page
}

// sample reports whether it is one of the samples as written.
func (p *plan) sample() bool { return p.paper == "" && strings.HasPrefix(p.name, "samples/") }
func (p *plan) mm() bool     { return p.unit.Measure == "mm" }

// plans builds every plan once for all tests.
var plans = sync.OnceValues(func() ([]*plan, error) {
	list, err := planFiles()
	if err != nil {
		return nil, err
	}
	var wait sync.WaitGroup
	errs := make([]error, len(list))
	for i, p := range list {
		wait.Add(1)
		go func() {
			defer wait.Done()
			errs[i] = p.build()
		}()
	}
	wait.Wait()
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("%s: %w", list[i].name, err)
		}
	}
	return list, nil
})

// planFiles lists the plans to build: samples and odd plans as written,
// samples on other papers in other languages, random plans.
func planFiles() (list []*plan, err error) {
	for _, folder := range []string{"samples", "testdata/odd"} {
		paths, err := filepath.Glob(filepath.Join(root, folder, "*", "plan.yaml"))
		if err != nil || len(paths) == 0 {
			return nil, fmt.Errorf("%s: no plans (%v)", folder, err)
		}
		for _, path := range paths {
			dir := folder + "/" + filepath.Base(filepath.Dir(path))
			list = append(list, &plan{name: dir, files: os.DirFS(filepath.Join(root, dir))})
		}
	}
	papers, tongues := []string{"a4", "letter", "a3", "tabloid"}, []string{"fr", "es", "en"}
	n := 0
	for _, p := range list {
		for range 2 {
			if !p.sample() {
				break
			}
			v := plan{files: p.files, paper: papers[n%len(papers)], tongue: tongues[n%len(tongues)]}
			v.name = fmt.Sprintf("%s-%s-%s", p.name, v.paper, v.tongue)
			list = append(list, &v)
			n++
		}
	}
	count := 10
	if os.Getenv("SETWRIGHT_ORACLES") == "1" {
		count = 30
	}
	return append(list, randomPlans(count)...), nil
}

// load reads the plan, on its paper and in its language.
func (p *plan) load() (*layout.Project, error) { return p.loadBy(layout.NewReader()) }

func (p *plan) loadBy(reader *layout.Reader) (*layout.Project, error) {
	text, err := fs.ReadFile(p.files, "plan.yaml")
	if err != nil {
		return nil, err
	}
	if p.paper != "" {
		text = regexp.MustCompile(`(?m)^(paper|language): \w+.*\n`).ReplaceAll(text, nil)
		text = fmt.Appendf(text, "\npaper: %s\nlanguage: %s\n", p.paper, p.tongue)
	}
	project := reader.Parse(p.files, "plan.yaml", text)
	if project.Unit == nil || p.paper != "" && (project.Plan.Paper != p.paper || project.Plan.Language != p.tongue) {
		var said bytes.Buffer
		project.Findings.WriteText(&said)
		return nil, fmt.Errorf("does not resolve:\n%s", said.Bytes())
	}
	return project, nil
}

// each runs a check on every plan.
func each(t *testing.T, check func(t *testing.T, p *plan)) {
	t.Helper()
	list, err := plans()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list {
		t.Run(p.name, func(t *testing.T) { check(t, p) })
	}
}

// build takes the plan through the pipeline and reads the PDF back.
func (p *plan) build() error {
	if err := p.make(); err != nil {
		return err
	}
	var err error
	if p.doc, err = pdftest.Read(p.file); err != nil {
		return err
	}
	if err := json.Unmarshal(p.dump, &p.unit); err != nil {
		return err
	}
	p.words = words.In(p.project.Plan.Language)
	p.sheets, err = p.read()
	return err
}

// make writes the pack and the dump of the unit.
func (p *plan) make() (err error) {
	if p.project, err = p.load(); err != nil {
		return err
	}
	if p.pack, p.file, err = p.draw(); err != nil {
		return err
	}
	var dump bytes.Buffer
	err = unit.WriteJSON(&dump, p.project.Unit, p.project.Fingerprint)
	p.dump = dump.Bytes()
	return err
}

// draw makes the pack anew, with more findings if wanted.
func (p *plan) draw(more ...diag.Finding) (*sheet.Pack, []byte, error) {
	findings := append(p.project.Findings.All(), more...)
	pack, err := render.Pack(p.project.Unit, findings, render.Options{
		Program: "Setwright under proof", Fingerprint: p.project.Fingerprint, Images: p.project.Image, Report: p.project.Report,
		Cuts: p.project.Cuts, Purchase: p.project.Purchase,
	})
	if err != nil {
		return nil, nil, err
	}
	var file bytes.Buffer
	err = pdf.Write(&file, pack)
	return pack, file.Bytes(), err
}

// page is one page as read back, with what its title block says.
type page struct {
	*pdftest.Page
	number int // 1 is the first
	title  string
	kind   kind
	face   string // its letter; "" if the page is not of one face
	den    float64
	bays   [2]int // the bays of the face that an elevation shows

	drawing *drawing // its dimensions, once they have been read
}

type kind int

const (
	other kind = iota
	unitSheet
	hardware
	goods
	pickList
	positionKey
	keyByName
	keyBySKU
	restock
	tags
	byFace
	loadSheet
)

// read finds out what every page is, from its own lettering.
func (p *plan) read() ([]*page, error) {
	list := make([]*page, len(p.doc.Pages))
	for i := range p.doc.Pages {
		pg := &page{Page: &p.doc.Pages[i], number: i + 1}
		pg.title = pg.field(p.words.Drawing)
		p.classify(pg)
		if n := regexp.MustCompile(`^1:(\d+)( |$)`).FindStringSubmatch(pg.field(p.words.Scale)); n != nil {
			fmt.Sscan(n[1], &pg.den)
		}
		if (pg.kind == hardware || pg.kind == goods || pg.kind == unitSheet && pg.title == p.words.UnitBuild) && pg.den == 0 && !p.tableOnly(pg) {
			return nil, fmt.Errorf("page %d (%s): a drawing without a scale", pg.number, pg.title)
		}
		list[i] = pg
	}
	return list, nil
}

// tableOnly reports whether a page continues a table and says that it has no scale.
func (p *plan) tableOnly(pg *page) bool { return pg.field(p.words.Scale) == p.words.NotToScale }

func (p *plan) classify(pg *page) {
	w := p.words
	title := regexp.MustCompile(` \(\d+\)$`).ReplaceAllString(pg.title, "")
	switch title {
	case w.UnitBuild:
		pg.kind = unitSheet
	case w.PickList:
		pg.kind = pickList
	case w.PickByFace:
		pg.kind = byFace
	case w.Loads:
		pg.kind = loadSheet
	case w.PositionKey:
		pg.kind = positionKey
	case w.KeyByName:
		pg.kind = keyByName
	case w.KeyBySKU:
		pg.kind = keyBySKU
	case w.Restock:
		pg.kind = restock
	case w.Tags:
		pg.kind = tags
	}
	names := map[string]string{"front": w.FrontFace, "right": w.RightFace, "back": w.BackFace, "left": w.LeftFace}
	for _, f := range p.unit.Faces {
		switch title {
		case fmt.Sprintf(w.HardwareOf, names[f.Face]):
			pg.kind, pg.face = hardware, f.Letter
		case fmt.Sprintf(w.GoodsOf, names[f.Face]):
			pg.kind, pg.face = goods, f.Letter
		}
		if pg.face == f.Letter {
			pg.bays = p.baysOf(pg, f.Bays)
		}
	}
}

// baysOf reads which bays a sheet shows: all, unless it says otherwise.
func (p *plan) baysOf(pg *page, all int) [2]int {
	for _, t := range pg.Texts {
		var from, to, of int
		if n, _ := fmt.Sscanf(t.S, p.words.BaysOf, &from, &to, &of); n == 3 && of == all {
			return [2]int{from, to}
		}
		if n, _ := fmt.Sscanf(t.S, p.words.BayOf, &from, &of); n == 2 && of == all {
			return [2]int{from, from}
		}
	}
	return [2]int{1, all}
}

// field is what the title block says under a label.
func (pg *page) field(label string) string {
	var at *pdftest.Text
	for i, t := range pg.Texts {
		if t.S == label && t.At.Y > pg.Height-40 {
			at = &pg.Texts[i]
		}
	}
	if at == nil {
		return ""
	}
	var lines []string
	for _, t := range pg.Texts {
		if near(t.At.X, at.At.X, 0.01) && t.At.Y > at.At.Y+1 && t.At.Y < at.At.Y+8.5 {
			lines = append(lines, t.S)
		}
	}
	return strings.Join(lines, " ")
}

// of returns the pages of a kind, of one face if a letter is given.
func (p *plan) of(k kind, face string) []*page {
	var list []*page
	for _, pg := range p.sheets {
		if pg.kind == k && (face == "" || pg.face == face) {
			list = append(list, pg)
		}
	}
	return list
}

func near(a, b, within float64) bool { return a-b <= within && b-a <= within }
