package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"

	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/saw"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

// rebuilt is a pack made once more from what it carries.
type rebuilt struct {
	data     []byte
	contents *archive.Contents
	text     []byte // of the contents
}

// rebuild makes the pack once more. Every command that attaches what it made a
// pack from has its line here.
func (p *packed) rebuild() (*rebuilt, error) {
	p.again, p.lost = true, map[string]string{}
	var drawn *sheet.Pack
	var err error
	switch p.Contents.Command {
	case sheetsName:
		drawn, err = p.sheetsAgain()
	case kitName:
		drawn, err = p.kitAgain()
	case compareName:
		drawn, err = p.optionsAgain()
	case resetName:
		drawn, err = p.resetAgain()
	case cutName:
		drawn, err = p.cutAgain()
	default:
		err = fmt.Errorf("made by the command %s, which this version does not make again", diag.OneLine(p.Contents.Command))
	}
	if err != nil {
		return nil, err
	}
	var file bytes.Buffer
	if err := pdf.Write(&file, drawn); err != nil {
		return nil, err
	}
	i := slices.IndexFunc(drawn.Files, func(f sheet.File) bool { return f.Name == archive.ContentsName })
	contents, err := archive.Read(drawn.Files[i].Data)
	return &rebuilt{file.Bytes(), contents, drawn.Files[i].Data}, err
}

// sources are the plans of the pack, under the names they had.
func (p *packed) sources() []source {
	list := make([]source, len(p.Contents.Plans))
	for i, plan := range p.Contents.Plans {
		list[i] = newNamed(cmp.Or(plan.Pack, plan.Called))
		list[i].pack, list[i].from, list[i].plan = plan.Pack != "", p, i
	}
	return list
}

func (p *packed) sheetsAgain() (*sheet.Pack, error) {
	if err := p.single(); err != nil {
		return nil, err
	}
	made, err := draw(p.sources()[0], nil)
	if err != nil {
		return nil, err
	}
	if made.drawn == nil {
		return nil, unreadable(made.findings)
	}
	return made.drawn, nil
}

// several reads the plans of the pack together.
func (p *packed) several(name func([]kit.Season) []kit.Season) (*several, error) {
	if n := len(p.Contents.Plans); n > mostPlans {
		return nil, fmt.Errorf("it is of %d plans, more than any pack", n)
	}
	reader, err := p.reader()
	if err != nil {
		return nil, err
	}
	h := house{from: p}
	if f := p.Contents.Parts; f != nil {
		h.parts = f.Called
	}
	if f := p.Contents.Stock; f != nil {
		h.stock = f.Called
	}
	all, err := readSources(p.sources(), reader, h, name, nil)
	if err == nil && all.seasons == nil {
		err = unreadable(&all.findings)
	}
	return all, err
}

func (p *packed) kitAgain() (*sheet.Pack, error) {
	all, err := p.several(kit.Named)
	if err != nil {
		return nil, err
	}
	year, found := kit.Make(all.seasons, all.hand)
	all.add(found)
	return all.kitSheets(year), nil
}

func (p *packed) optionsAgain() (*sheet.Pack, error) {
	all, err := p.several(kit.Titled)
	if err != nil {
		return nil, err
	}
	options, found := kit.Options(all.seasons, all.hand, all.own)
	all.add(found)
	return all.optionSheets(options), nil
}

func (p *packed) resetAgain() (*sheet.Pack, error) {
	all, err := p.several(kit.Titled)
	if err != nil {
		return nil, err
	}
	if len(all.seasons) != 2 {
		return nil, fmt.Errorf("a reset is from one plan to another; there are %d", len(all.seasons))
	}
	n := all.night(slices.Contains(p.Contents.Flags, rebuildFlag))
	if n == nil {
		return nil, unreadable(&all.findings)
	}
	return all.resetSheets(n), nil
}

func (p *packed) cutAgain() (*sheet.Pack, error) {
	c, f := cutFlagsCommand()
	if err := c.flags.Parse(p.Contents.Flags); err != nil {
		return nil, err
	}
	if err := f.check(c); err != nil {
		return nil, err
	}
	list := p.Contents.Plans[0]
	text, _ := p.Data(list.File)
	var found diag.List
	file, err := f.read(c, list.Called, text, &found)
	if err != nil {
		return nil, err
	}
	if file == nil {
		return nil, unreadable(&found)
	}
	cut, findings := saw.Cut(file.Job)
	if found.Add(findings...); found.Has(diag.Error) {
		return nil, unreadable(&found)
	}
	return f.sheets(list.Called, text, file, []saw.Plan{cut}, p.Contents.Program), nil
}

// unreadable is that plans of a pack have errors, which they had not when the
// pack was made.
func unreadable(found *diag.List) error {
	errs := worse(found, diag.Error).All()
	if len(errs) == 0 {
		return errors.New("its plans cannot be read by this version")
	}
	more := ""
	if len(errs) > 1 {
		more = fmt.Sprintf(" (and %d errors more)", len(errs)-1)
	}
	return fmt.Errorf("its plans cannot be read by this version: %s: %s%s", errs[0].At, errs[0].Message, more)
}
