package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"setwright/layout"
	"setwright/layout/archive"
	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// mostPlans bounds the plans of one kit or comparison: more than fit on sheets
// that anyone reads.
const mostPlans = 60

// house is what a house says beside its plans: a parts list laid over those of
// every plan, and what is on hand. Either may be "".
type house struct {
	parts, stock string
	from         *packed // where both are read, if that is not the disk
}

// several is plans read together. Where any of them, or of the house's files,
// has errors there are no seasons; findings say why. Sources, projects and
// seasons are in the order given.
type several struct {
	sources  []source
	projects []*layout.Project
	seasons  []kit.Season
	hand     []parts.OnHand
	findings diag.List        // of all, named as the user names files
	own      [][]diag.Finding // of each plan
	together []diag.Finding   // about the plans together
	house    house
	mark     string // the fingerprint of all together

	partsText, stockText *archive.Source // of the house
}

// readSeveral reads plans, all of them with one Reader, and gives them names.
func readSeveral(paths []string, h house, name func([]kit.Season) []kit.Season, in io.Reader) (*several, error) {
	sources := make([]source, len(paths))
	for i, path := range paths {
		sources[i] = newSource(path)
	}
	return readSources(sources, layout.NewReader(), h, name, in)
}

// readSources is readSeveral for plans wherever they are.
func readSources(sources []source, reader *layout.Reader, h house, name func([]kit.Season) []kit.Season, in io.Reader) (*several, error) {
	all := &several{house: h}
	var texts [][]byte
	if all.partsText = all.houseFile(h.parts, string(layout.PartsRole)); all.partsText != nil {
		reader = reader.Over(fromHere(h.parts), all.partsText.Text)
		texts = append(texts, all.partsText.Text)
	}
	for _, src := range sources {
		if err := all.read(src, reader, in); err != nil {
			return nil, err
		}
	}
	if !all.findings.Has(diag.Error) {
		all.seasons = name(all.seasons)
		all.onHand(&texts)
	}
	if all.tidy(); all.findings.Has(diag.Error) {
		all.seasons = nil
	}
	for _, p := range all.projects {
		texts = append(texts, []byte(p.Fingerprint))
	}
	all.mark = plan.Fingerprint(texts...)
	return all, nil
}

// record is what the sheets of a command on these plans are made from.
func (all *several) record(command string) *record {
	r := &record{command: command, fingerprint: all.mark, parts: all.partsText, stock: all.stockText}
	for i, src := range all.sources {
		r.addNamed(src, all.projects[i])
	}
	return r
}

// read reads one plan.
func (all *several) read(src source, reader *layout.Reader, in io.Reader) error {
	project, err := src.loadBy(reader, in)
	if err != nil {
		return err
	}
	found := src.findings(project)
	all.findings.Add(found.All()...)
	all.sources = append(all.sources, src)
	all.projects = append(all.projects, project)
	all.own = append(all.own, found.All())
	name := src.path
	if name == "-" {
		name = stdinName
	}
	if project.Unit != nil {
		all.seasons = append(all.seasons, kit.Season{File: name, Mark: project.Fingerprint, Unit: project.Unit, OnHand: project.OnHand})
	}
	return nil
}

// houseFile reads a file of the house, if one is named.
func (all *several) houseFile(file, role string) *archive.Source {
	if file == "" {
		return nil
	}
	if from := all.house.from; from != nil {
		text, ok := from.houseFile(file)
		if !ok {
			all.findings.Add(diag.Finding{Level: diag.Error, Code: "no-file", At: diag.Span{File: file}, Message: "it is not in the pack"})
			return nil
		}
		return &archive.Source{Name: file, Role: role, Text: text}
	}
	text, ok := readNamed(file, decode.PartsLimit, &all.findings)
	if !ok {
		return nil
	}
	return &archive.Source{Name: file, Role: role, Text: text}
}

// onHand reads what is on hand: the house's file, or else the plans' own.
func (all *several) onHand(texts *[][]byte) {
	if all.house.stock == "" {
		hand, found := kit.OnHand(all.seasons)
		all.hand = hand
		all.add(found)
		return
	}
	if all.stockText = all.houseFile(all.house.stock, string(layout.StockRole)); all.stockText != nil {
		*texts = append(*texts, all.stockText.Text)
		var found diag.List
		all.hand = kit.LoadOnHand(all.seasons, fromHere(all.house.stock), all.stockText.Text, &found)
		all.add(found.All())
	}
}

func (all *several) tidy() {
	all.findings.Sort()
	all.findings.Dedupe()
}

// fromHere is a file's name as it is said from where the command runs, and
// unlike any that a plan may give to its own.
func fromHere(file string) string {
	if filepath.IsAbs(file) {
		return filepath.ToSlash(file)
	}
	return "./" + strings.TrimPrefix(filepath.ToSlash(file), "./")
}

// keep refuses to write over any file that the result is made from.
func (all *several) keep(out, result, flag string) error {
	for i, src := range all.sources {
		if err := keepInputs(out, result, flag, src, all.projects[i].Files); err != nil {
			return err
		}
	}
	for _, file := range []string{all.house.parts, all.house.stock} {
		if file != "" {
			if err := keepInputs(out, result, flag, source{dir: filepath.Dir(file)}, []string{filepath.Base(file)}); err != nil {
				return err
			}
		}
	}
	return nil
}

// add adds what was found about the plans together.
func (all *several) add(found []diag.Finding) {
	all.together = append(all.together, found...)
	all.findings.Add(found...)
	all.tidy()
}

// changing are findings about making the first of two plans into the second, with
// the files named as the user would: they point at the second, their notes at the
// first.
func (all *several) changing(found []diag.Finding) []diag.Finding {
	list := all.sources[1].named(all.projects[1], found).All()
	notes := all.sources[0].named(all.projects[0], found).All()
	for i, f := range found {
		if f.At == (diag.Span{}) {
			list[i].At.File = all.seasons[1].File
		}
		list[i].Notes = notes[i].Notes
	}
	return list
}

// refuse tells what is wrong with the plans and ends the command.
func (all *several) refuse(s streams) error {
	worse(&all.findings, diag.Error).WriteText(s.err)
	return errReported
}

// write writes each file whole, once it is sure that none replaces another or
// what it is made from. Then it tells what was found about the plans together,
// and their stops.
func (all *several) write(made *outputs, result string, s streams) error {
	keep := func(path, flag string) error { return all.keep(path, result, flag) }
	if err := made.check(keep); err != nil {
		return err
	}
	if err := made.write(s.out); err != nil {
		return err
	}
	told := worse(&all.findings, diag.Stop)
	told.Add(all.together...)
	told.Sort()
	told.Dedupe()
	told.WriteText(s.err)
	for _, f := range made.files {
		if f.path != "-" {
			fmt.Fprintf(s.out, "%s: %d plans, %s\n", f.path, len(all.seasons), counted(&all.findings))
		}
	}
	return verdict(&all.findings)
}

// bind adds the flags of the house's files to a command.
func (h *house) bind(c *command) {
	c.flags.StringVar(&h.parts, "parts", "", "lay the parts list `FILE` over those of the plans")
	c.flags.StringVar(&h.stock, "stock", "", "what is on hand: a stock `FILE`")
}

// named refuses flags that are given without the name they need.
func named(c *command, flags ...string) error {
	for _, name := range flags {
		if f := c.flags.Lookup(name); f.Changed && f.Value.String() == "" {
			return c.misused("--%s needs a name", name)
		}
	}
	return nil
}
