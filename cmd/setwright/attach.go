package main

import (
	"encoding/hex"

	"setwright/layout"
	"setwright/layout/archive"
	"setwright/render/sheet"
)

// The commands whose packs carry what they were made from.
const (
	sheetsName  = "sheets"
	kitName     = "kit"
	compareName = "compare"
	resetName   = "reset"
	cutName     = "cut"
)

// record is what a pack is made from, to be attached to it.
type record struct {
	command, fingerprint string
	flags                []string // that the sheets depend on and that name no files
	program              string   // name and version; "" is this program
	parts, stock         *archive.Source
	summary              bool // of the one project

	sets     []archive.Set
	projects []*layout.Project
	from     *packed // that all of it comes from, if it is made once more
}

// add adds a plan under the names that findings on the sheets may have: its own
// and, if it was read from a pack, that of the pack.
func (r *record) add(src source, called, pack string, p *layout.Project) {
	set := archive.Set{Called: called, Pack: pack}
	for _, s := range p.Sources() {
		if s.Role != layout.HouseRole {
			set.Sources = append(set.Sources, archive.Source{Name: s.Name, Role: string(s.Role), Text: s.Text})
		}
	}
	for _, i := range p.Images() {
		width, height := i.Picture.Size()
		set.Pictures = append(set.Pictures, archive.Picture{Name: i.Name, SHA256: i.SHA256, Width: width, Height: height})
	}
	r.program, r.from = src.program(), src.from
	r.sets = append(r.sets, set)
	r.projects = append(r.projects, p)
}

// addNamed adds a plan by the path that was given, for sheets that findings may
// have it on.
func (r *record) addNamed(src source, p *layout.Project) {
	if src.pack {
		r.add(src, p.Files[0], src.path, p)
	} else {
		r.add(src, src.path, "", p)
	}
}

// attach attaches all of it to the pack that came of it.
func (r *record) attach(drawn *sheet.Pack) {
	m := archive.Material{
		Program: r.program, Command: r.command, Fingerprint: r.fingerprint, Flags: r.flags,
		Sets: r.sets, Parts: r.parts, Stock: r.stock,
	}
	prints := r.prints(drawn)
	for _, s := range drawn.Sheets {
		sum := sheet.Sum(s, prints)
		m.Sheets = append(m.Sheets, archive.Sheet{Name: s.Name, Title: s.Title, SHA256: hex.EncodeToString(sum[:])})
	}
	if len(r.projects) > 0 {
		first := r.projects[0]
		for _, f := range first.BuiltIn() {
			m.BuiltIn = append(m.BuiltIn, archive.Source{Name: f.Name, Role: archive.BuiltInRole, Text: f.Text})
		}
		for i, p := range m.Sets[0].Pictures { // only the sheets of one plan show any
			m.Sets[0].Pictures[i].Print = prints[p.Name]
		}
		if r.summary {
			s := archive.Summarize(first.Unit, first.Findings.All(), first.Purchase)
			m.Summary = &s
		}
	}
	for _, f := range archive.Make(m) {
		drawn.Files = append(drawn.Files, sheet.File{Name: f.Name, Type: f.Type, Relationship: relation(f.Name), Description: f.Description, Data: f.Data})
	}
}

// prints are the hashes of the pictures on the sheets, by their keys. One whose
// print a pack has lost goes by the hash that the pack had.
func (r *record) prints(drawn *sheet.Pack) map[string]string {
	prints := map[string]string{}
	for _, s := range drawn.Sheets {
		for _, item := range s.Items {
			i, ok := item.(sheet.Image)
			if !ok || prints[i.Key] != "" {
				continue
			}
			if r.from != nil && r.from.lost[i.Key] != "" {
				prints[i.Key] = r.from.lost[i.Key]
			} else {
				prints[i.Key] = archive.Sum(i.Data)
			}
		}
	}
	return prints
}

// relation is what an attached file is to the pack (ISO 32000-2, 14.13): what it
// was made from, or data about it.
func relation(name string) string {
	if name == archive.ContentsName {
		return "Data"
	}
	return "Source"
}
