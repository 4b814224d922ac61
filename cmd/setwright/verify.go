package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/render/reader"
)

func verifyCommand() *command {
	c := &command{
		name: "verify", args: "PACK", summary: "make a pack again from what it carries, and compare",
		least: 1, most: 1, missing: "which pack? give its PDF",
		flags: newFlags("verify"),
		about: `
Makes a pack once more from the files that it carries and says whether it is the same,
byte for byte. Where it is not, it says why:

- Saved anew by another program: the files it carries are as they were and every page
  is drawn by the same operators on the same fonts and pictures. Where a program has
  drawn all pages anew, their text and its places are compared, and it says so.
- Made by another version: the sheets that this version draws otherwise.
- Changed: the files that are not as the contents say, the sheets that show something
  else than their sources make, or that notes were put on.

The built-in parts list is the one in the pack. Pictures are taken as the pack shows
them, or with --images from the folder that the plan's names of pictures begin in, if
they are there and the same by their hashes.

Exit status: 0 the same, or the same content saved anew; 1 not the same; 2 not a pack,
or a damaged one.`,
		examples: `
setwright verify spring.pdf
setwright verify spring.pdf --images plans/spring`,
	}
	images := c.flags.String("images", "", "take pictures from `DIR` where they are unchanged")
	c.run = func(args []string, s streams) error {
		if err := named(c, "images"); err != nil {
			return err
		}
		return verify(args[0], *images, s)
	}
	return c
}

func verify(name, images string, s streams) error {
	p, err := openPack(name)
	if err != nil {
		return err
	}
	if images != "" {
		if p.images, err = os.OpenRoot(images); err != nil {
			return plainError(images, err)
		}
		defer p.images.Close()
	}
	p.tellExtras(s)
	if told := p.faults(); told.Len() > 0 {
		told.WriteText(s.out)
		fmt.Fprintf(s.out, "%s: not the same: what it was made from was changed\n", name)
		return errStopped
	}
	again, err := p.rebuild()
	if err != nil {
		fmt.Fprintf(s.out, "%s: cannot be made again: %s%s\n", name, diag.OneLine(err.Error()), p.version())
		return errStopped
	}
	for _, other := range p.others {
		fmt.Fprintf(s.err, "%s: not the picture that the pack was made with\n", filepath.Join(images, filepath.FromSlash(other)))
	}
	if bytes.Equal(p.data, again.data) {
		fmt.Fprintf(s.out, "%s: the same, byte for byte: %s%s\n", name, sheetCount(len(again.contents.Sheets)), p.version())
		return nil
	}
	faults, compared, err := p.compare(again)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if len(faults) > 0 {
		for _, f := range faults {
			fmt.Fprintf(s.out, "%s: %s\n", name, diag.OneLine(f))
		}
		fmt.Fprintf(s.out, "%s: not the same%s\n", name, p.version())
		return errStopped
	}
	fmt.Fprintf(s.out, "%s: the same content, not the same bytes: %s%s\n", name, p.saved(compared, again), p.version())
	return nil
}

func sheetCount(n int) string {
	if n == 1 {
		return "1 sheet"
	}
	return fmt.Sprintf("%d sheets", n)
}

// version says that another version made the pack, if one did.
func (p *packed) version() string {
	if p.Contents.Program == program {
		return ""
	}
	return fmt.Sprintf(" (made by %s, made again by %s)", diag.OneLine(p.Contents.Program), program)
}

// compare says what differs from the pack made again: sheets that are drawn
// otherwise, or else pages that do not show their sheets and contents that say
// something else.
func (p *packed) compare(again *rebuilt) (faults []string, c *reader.Comparison, err error) {
	if faults := p.compareSheets(again); len(faults) > 0 {
		return faults, nil, nil
	}
	if fields := otherFields(p.said(), again.text); len(fields) > 0 {
		faults = append(faults, "contents.json was changed: what it says of "+strings.Join(fields, ", ")+" does not follow from the files")
	}
	original, err := reader.Open(again.data)
	if err != nil {
		return nil, nil, err
	}
	if c, err = reader.Compare(p.document, original); err != nil {
		return nil, nil, err
	}
	if c.Pages[0] != c.Pages[1] {
		faults = append(faults, fmt.Sprintf("it has %d pages, not %d", c.Pages[0], c.Pages[1]))
	}
	for i, s := range again.contents.Sheets {
		if slices.Contains(c.Differ, i) {
			faults = append(faults, fmt.Sprintf("sheet %d, %s: the page was changed after the pack was made", i+1, s.Title))
		}
		if slices.Contains(c.Notes, i) {
			faults = append(faults, fmt.Sprintf("sheet %d, %s: notes or stamps were put on the page", i+1, s.Title))
		}
	}
	return faults, c, nil
}

// compareSheets holds what the contents say that the sheets show against what
// they show when they are drawn again.
func (p *packed) compareSheets(again *rebuilt) []string {
	was, is := p.Contents.Sheets, again.contents.Sheets
	var faults []string
	for i := range max(len(was), len(is)) {
		switch {
		case i >= len(is):
			faults = append(faults, fmt.Sprintf("sheet %d, %s: not made any more", i+1, was[i].Title))
		case i >= len(was):
			faults = append(faults, fmt.Sprintf("sheet %d, %s: not in the pack", i+1, is[i].Title))
		case was[i] != is[i]:
			faults = append(faults, fmt.Sprintf("sheet %d, %s: drawn otherwise", i+1, is[i].Title))
		}
	}
	return faults
}

// said is the text of the contents.
func (p *packed) said() []byte {
	text, _ := p.Data(archive.ContentsName)
	return text
}

// otherFields are the fields in which two contents differ.
func otherFields(a, b []byte) []string {
	var said, follows map[string]json.RawMessage
	if json.Unmarshal(a, &said) != nil || json.Unmarshal(b, &follows) != nil {
		return []string{"everything"}
	}
	var fields []string
	for name, value := range said {
		if !bytes.Equal(value, follows[name]) {
			fields = append(fields, name)
		}
	}
	for name := range follows {
		if _, ok := said[name]; !ok {
			fields = append(fields, name)
		}
	}
	slices.Sort(fields)
	return fields
}

// saved says who saved the pack anew, and what of it was compared.
func (p *packed) saved(c *reader.Comparison, again *rebuilt) string {
	how := "every page is drawn as it was"
	if c.Rewritten {
		how = "every page is drawn anew, with the same text at the same places; lines, fills and pictures were not compared"
	}
	if extra := len(p.data) - len(again.data); extra > 0 && bytes.Contains(p.data, again.data) {
		return fmt.Sprintf("%d bytes were added round it; %s", extra, how)
	}
	by := diag.OneLine(p.document.Producer())
	if original, err := reader.Open(again.data); by == "" || err != nil || by == original.Producer() {
		// another release of Go may compress the same sheets to other bytes
		return "saved anew by another program, or made by another build of this one; " + how
	}
	return fmt.Sprintf("saved anew by %s; %s", by, how)
}
