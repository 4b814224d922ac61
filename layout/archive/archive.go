// Package archive is what a pack says of itself: which files it was made of,
// by which program and command, and what its sheets show, so that the pack can
// be taken apart and made once more from nothing but itself. It knows neither
// paper nor PDF: files come and go as names and bytes.
package archive

import (
	"cmp"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"setwright/layout/diag"
)

// File is a file attached to a pack, or to be attached.
type File struct {
	Name        string // as attached: a path with slashes
	Type        string // media type
	Description string // for people
	Data        []byte
}

// Archive is a pack that has been opened. It is not changed.
type Archive struct {
	Contents Contents
	files    map[string]File // by the name they are attached under
}

// Open reads the contents among the files attached to a pack and holds every
// file against its hash there. Without contents, or with contents that cannot
// be used, there is no archive: the pack is someone else's, or damaged. Files
// that are missing or not as they were are findings of level error that name
// them; the archive is there all the same.
func Open(files []File) (*Archive, []diag.Finding) {
	a := &Archive{files: map[string]File{}}
	var list diag.List
	for _, f := range files {
		if _, twice := a.files[f.Name]; twice {
			list.Add(fault(f.Name, "two-files", fmt.Sprintf("two attached files are named %q", f.Name), ""))
			continue
		}
		a.files[f.Name] = f
	}
	said, ok := a.files[ContentsName]
	if !ok {
		return nil, []diag.Finding{{Level: diag.Error, Code: "no-contents", Message: "this PDF carries no sources",
			Expected: "a pack written by setwright, with its plan attached"}}
	}
	contents, err := Read(said.Data)
	if err != nil {
		return nil, []diag.Finding{fault(ContentsName, "bad-contents", err.Error(), "")}
	}
	a.Contents = *contents
	listed := map[string]bool{folded(ContentsName): true}
	for _, e := range contents.Files {
		list.Add(a.missed(e, listed[folded(e.Name)])...)
		listed[folded(e.Name)] = true
	}
	list.Sort()
	list.Dedupe()
	return a, list.All()
}

// missed is what is wrong with a file that the contents list.
func (a *Archive) missed(e Entry, twice bool) []diag.Finding {
	f, ok := a.files[e.Name]
	switch {
	case !Safe(e.Name) || twice:
		return []diag.Finding{fault(e.Name, "unsafe-name", "no pack has a file of that name: it is left where it is", "")}
	case !ok:
		return []diag.Finding{fault(e.Name, "missing-source", "it is not attached any more", "as the contents of the pack list it")}
	case Sum(f.Data) != e.SHA256:
		return []diag.Finding{fault(e.Name, "forged-source",
			fmt.Sprintf("it was changed after the pack was made: %s", was(e, f.Data)), "the file that the contents of the pack list")}
	}
	return nil
}

func was(e Entry, data []byte) string {
	if len(data) != e.Bytes {
		return fmt.Sprintf("%d bytes, not %d", len(data), e.Bytes)
	}
	return "its SHA-256 is another"
}

func fault(name, code, message, expected string) diag.Finding {
	return diag.Finding{Level: diag.Error, Code: code, At: diag.Span{File: name}, Message: message, Expected: expected}
}

// Extras are attached files that the contents do not list, by name: another
// program put them there.
func (a *Archive) Extras() []string {
	var names []string
	for name := range a.files {
		if name != ContentsName && !slices.ContainsFunc(a.Contents.Files, func(e Entry) bool { return e.Name == name }) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// Files are the files that the contents list and the contents themselves, as
// far as they are attached, by name. All of these are Safe, and no two differ in
// capitals alone.
func (a *Archive) Files() []File {
	list := []File{a.files[ContentsName]}
	taken := map[string]bool{folded(ContentsName): true}
	for _, e := range a.Contents.Files {
		if f, ok := a.files[e.Name]; ok && Safe(e.Name) && !taken[folded(e.Name)] {
			taken[folded(e.Name)] = true
			list = append(list, f)
		}
	}
	slices.SortFunc(list, func(f, g File) int { return cmp.Compare(f.Name, g.Name) })
	return list
}

// Data is the attached file of that name, if it is there.
func (a *Archive) Data(name string) ([]byte, bool) {
	f, ok := a.files[name]
	return f.Data, ok
}

// FS is the files of one plan, by the names that it gives them: what
// layout.Reader reads it from. Plan counts from 0.
func (a *Archive) FS(plan int) fs.FS {
	return sources{a, folderOf(a.Contents.Plans[plan].File)}
}

// folderOf is the folder in the pack that a plan's files are in, with a slash
// behind it, or "" for the top.
func folderOf(file string) string {
	if dir := path.Dir(file); dir != "." {
		return dir + "/"
	}
	return ""
}

// BuiltIn are the files of the built-in parts list that the pack was made with,
// by the names that the list gives them, in the order of the contents.
func (a *Archive) BuiltIn() []File {
	var list []File
	for _, e := range a.Contents.Files {
		if f, ok := a.files[e.Name]; ok && e.Role == BuiltInRole {
			f.Name = strings.TrimPrefix(f.Name, builtInFolder)
			list = append(list, f)
		}
	}
	return list
}

// named is the file that the plan in a folder calls by a name.
func (a *Archive) named(folder, name string) (File, bool) {
	for _, e := range a.Contents.Files {
		if strings.HasPrefix(e.Name, folder) && cmp.Or(e.Called, strings.TrimPrefix(e.Name, folder)) == name {
			f, ok := a.files[e.Name]
			return f, ok
		}
	}
	return File{}, false
}
