package pdf

import (
	"crypto/md5"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"unicode"

	"setwright/render/sheet"
)

// relationships are what a file can be to the document it is attached to
// (ISO 19005-3, 6.8).
var relationships = [...]string{"Source", "Data", "Alternative", "Supplement", "Unspecified"}

// checkFiles says what is wrong with the files to attach.
func checkFiles(files []sheet.File) error {
	names := make(map[string]bool, len(files))
	for i, a := range files {
		switch {
		case a.Name == "":
			return fmt.Errorf("attached file %d has no name", i+1)
		case !goodName(a.Name):
			return fmt.Errorf("attached file %q: not a path with slashes that stays where it begins", a.Name)
		case names[a.Name]:
			return fmt.Errorf("two attached files are named %q", a.Name)
		case !isMediaType(a.Type):
			return fmt.Errorf("attached file %q: %q is not a media type such as text/csv", a.Name, a.Type)
		case !slices.Contains(relationships[:], a.Relationship):
			return fmt.Errorf("attached file %q: relationship %q is none of %s", a.Name, a.Relationship, strings.Join(relationships[:], ", "))
		}
		names[a.Name] = true
	}
	return nil
}

// goodName: a backslash would hide a slash from some programs and be one to
// others (ISO 32000-1, 7.11.2).
func goodName(name string) bool {
	odd := func(r rune) bool { return r == '\\' || unicode.IsControl(r) }
	return fs.ValidPath(name) && name != "." && !strings.ContainsFunc(name, odd) && short(name) == name
}

// isMediaType takes types without parameters. RFC 6838 allows a few more signs,
// which checkers of PDF/A do not.
func isMediaType(s string) bool {
	const signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.+"
	const longest = 127 // of a PDF name, in bytes (ISO 19005-3, 6.1.13)
	kind, sort, _ := strings.Cut(s, "/")
	return kind != "" && sort != "" && len(s) <= longest && strings.Trim(kind+sort, signs) == ""
}

// addFiles attaches the pack's files (ISO 32000-1, 7.11.4; ISO 19005-3, 6.8)
// and returns what the catalogue says of them: the names by which readers list
// them, in order of the names, and that they belong to the document as a
// whole, in the pack's order.
func (f *file) addFiles(p *sheet.Pack, modified string) string {
	if len(p.Files) == 0 {
		return ""
	}
	var associated, names strings.Builder
	keys, numbers := make([]string, len(p.Files)), make(map[string]int, len(p.Files))
	for i, a := range p.Files {
		n := f.addFile(a, modified)
		fmt.Fprintf(&associated, "%d 0 R ", n)
		// Plain: Ghostscript 10.00 keeps but one of UTF-16 names of one length.
		keys[i] = strings.TrimSuffix(plainString(a.Name), ">")
		numbers[keys[i]] = n
	}
	slices.Sort(keys) // digits alone sort as the bytes they stand for
	for _, key := range keys {
		fmt.Fprintf(&names, "%s> %d 0 R", key, numbers[key])
	}
	return "/AF[" + associated.String() + "]/Names<</EmbeddedFiles<</Names[" + names.String() + "]>>>>"
}

// addFile adds one file and the specification that tells of it, and returns
// the latter's number.
func (f *file) addFile(a sheet.File, modified string) int {
	sum := md5.Sum(a.Data) // the checksum that 7.11.4 asks for
	stream := f.add(object{
		dict: fmt.Sprintf("<</Type/EmbeddedFile/Subtype/%s/Params<</Size %d/CheckSum<%x>%s>>",
			strings.Replace(a.Type, "/", "#2F", 1), len(a.Data), sum, modified),
		stream: a.Data, form: deflate,
	})
	description := ""
	if a.Description != "" {
		description = "/Desc" + textString(a.Description)
	}
	return f.add(object{dict: fmt.Sprintf("<</Type/Filespec/F%s/UF%s%s/AFRelationship/%s/EF<</F %d 0 R/UF %d 0 R>>>>",
		plainString(a.Name), textString(a.Name), description, a.Relationship, stream, stream)})
}

// plainString is for the key of a file and the older of the two places of its
// name: what is all ASCII is written so, for readers that know no other.
func plainString(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r > unicode.MaxASCII }) {
		return textString(s)
	}
	return "<" + hex.EncodeToString([]byte(s)) + ">"
}
