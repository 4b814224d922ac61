package archive

import (
	"fmt"
	"path"
	"slices"
	"strings"
)

// BuiltInRole is that of a file of the built-in parts list.
const BuiltInRole = "built-in"

// Folders in the pack that hold no plan's files.
const (
	builtInFolder = "built-in/"
	partsFolder   = "house/parts/"
	stockFolder   = "house/stock/"
)

// Source is a file that a pack was made from.
type Source struct {
	Name string // as its plan names it; of a file named to the command, as that was given
	Role string // plan, parts, goods, stock, cut
	Text []byte
}

// Set is what one plan was made from.
type Set struct {
	Called   string    // what findings call the plan
	Pack     string    // that it was read from, if findings speak of that
	Sources  []Source  // the plan first; a file named twice counts once
	Pictures []Picture // without their plan's number
}

// Material is all that a pack was made from, and what came of it.
type Material struct {
	Program, Command, Fingerprint string
	Flags                         []string
	Sets                          []Set   // one a plan, in the order given
	Parts, Stock                  *Source // the house's files
	BuiltIn                       []Source
	Sheets                        []Sheet
	Summary                       *Summary // of a pack of one plan
}

// Make returns the files to attach to a pack, the contents first. The same
// material makes the same bytes.
func Make(m Material) []File {
	d := &draft{taken: map[string]bool{folded(ContentsName): true}}
	d.contents = Contents{
		Format: format, Program: m.Program, Command: m.Command, Flags: m.Flags, Fingerprint: m.Fingerprint,
		Sheets: m.Sheets, Summary: m.Summary,
	}
	for _, b := range m.BuiltIn {
		d.attach(builtInFolder, b)
	}
	d.contents.Parts = d.house(partsFolder, m.Parts)
	d.contents.Stock = d.house(stockFolder, m.Stock)
	for i, set := range m.Sets {
		folder := ""
		if len(m.Sets) > 1 || set.clashes() {
			folder = fmt.Sprintf("%d/", i+1)
		}
		d.set(i, folder, set)
	}
	first := File{Name: ContentsName, Type: "application/json", Description: "What this pack was made from", Data: d.contents.JSON()}
	return append([]File{first}, d.files...)
}

// clashes says whether a plan names files as the pack names its own.
func (s Set) clashes() bool {
	return slices.ContainsFunc(s.Sources, func(f Source) bool {
		name := folded(f.Name)
		first, _, _ := strings.Cut(name, "/")
		return name == ContentsName || first+"/" == builtInFolder || strings.HasPrefix(partsFolder, first+"/")
	})
}

// draft is a pack's files while they are gathered.
type draft struct {
	contents Contents
	files    []File
	taken    map[string]bool // names, in small letters
}

func (d *draft) set(number int, folder string, set Set) {
	had := map[string]bool{}
	for i, s := range set.Sources {
		if had[s.Name] {
			continue
		}
		had[s.Name] = true
		name := d.attach(folder, s)
		if i == 0 {
			d.contents.Plans = append(d.contents.Plans, Plan{name, set.Called, set.Pack})
		}
	}
	for _, p := range set.Pictures {
		p.Plan = number
		d.contents.Pictures = append(d.contents.Pictures, p)
	}
}

// house attaches a file of the house, which may be anywhere, by its last name.
func (d *draft) house(folder string, s *Source) *Plan {
	if s == nil {
		return nil
	}
	last := Source{path.Base(strings.ReplaceAll(s.Name, `\`, "/")), s.Role, s.Text}
	return &Plan{File: d.attach(folder, last), Called: s.Name}
}

// attach adds a file and returns what it is attached as: by its own name if
// that is one on every system, or else by one made up.
func (d *draft) attach(folder string, s Source) string {
	e := Entry{Name: folder + s.Name, Role: s.Role, Bytes: len(s.Text), SHA256: Sum(s.Text)}
	for n := 1; !Safe(e.Name) || d.taken[folded(e.Name)]; n++ {
		e.Name, e.Called = fmt.Sprintf("%s%s-%d%s", folder, s.Role, n, extension(s.Name)), s.Name
	}
	d.taken[folded(e.Name)] = true
	d.contents.Files = append(d.contents.Files, e)
	d.files = append(d.files, File{e.Name, mediaType(e.Name), description(s.Role), s.Text})
	return e.Name
}

// extension is the end of a name by which programs know what is in the file.
func extension(name string) string {
	switch ext := strings.ToLower(path.Ext(name)); ext {
	case ".yaml", ".yml", ".csv":
		return ext
	}
	return ""
}

func mediaType(name string) string {
	switch extension(name) {
	case ".yaml", ".yml":
		return "application/yaml" // RFC 9512
	case ".csv":
		return "text/csv" // RFC 4180
	}
	return "text/plain"
}

// description tells people what a file is.
func description(role string) string {
	switch role {
	case "plan":
		return "The plan"
	case "parts":
		return "A parts list that the plan names"
	case "goods":
		return "Goods that the plan names"
	case "stock":
		return "What is on hand"
	case "cut":
		return "The list of what to cut"
	case BuiltInRole:
		return "Built-in parts list of the program that made this pack"
	}
	return ""
}
