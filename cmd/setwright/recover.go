package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"setwright/layout/archive"
	"setwright/layout/diag"
)

func recoverCommand() *command {
	c := &command{
		name: "recover", args: "PACK", summary: "get out of a pack what it was made from",
		least: 1, most: 1, missing: "which pack? give its PDF",
		flags: newFlags("recover"),
		about: `
Writes the files that a pack carries into a folder: the plan, the parts lists, goods
and stock files it names, the house's files, the built-in parts list of that day, and
contents.json, which says what is what. The pack may have been saved by another program
since. Without -o the folder has the pack's name without .pdf.

Every file is held against its hash in the contents first; where any was changed or is
missing, all of them are told and nothing is written unless with --force. Nothing is
ever written outside the folder, and no file there is replaced without --force. A file
is written whole or not at all.

Pictures are not in a pack as files. To draw the plan with them, put them back where
the plan has them; setwright verify and setwright sheets PACK need only the pack.`,
		examples: `
setwright recover spring.pdf
setwright recover spring.pdf -o plans/spring
setwright recover spring.pdf --force`,
	}
	out := c.flags.StringP("output", "o", "", "write the files into `DIR`")
	force := c.flags.Bool("force", false, "replace files that are there; write what was changed, too")
	c.run = func(args []string, s streams) error {
		if err := named(c, "output"); err != nil {
			return err
		}
		return recoverPack(args[0], *out, *force, s)
	}
	return c
}

func recoverPack(name, dir string, force bool, s streams) error {
	p, err := openPack(name)
	if err != nil {
		return err
	}
	if dir == "" {
		dir = besidePack(name)
	}
	if told := p.faults(); told.Len() > 0 {
		told.WriteText(s.err)
		if !force {
			return errReported
		}
	}
	files := p.Files()
	if err := writeFiles(dir, files, force); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s: %d files of %s, made by %s\n", dir, len(files), name, diag.OneLine(p.Contents.Program))
	p.tellRest(s)
	if len(p.forged) > 0 {
		return errStopped
	}
	return nil
}

// faults are the files of the pack that are not as they were, named as the user
// names them.
func (p *packed) faults() *diag.List {
	var told diag.List
	for _, f := range p.forged {
		f.At.File = inPack(p.path, f.At.File)
		told.Add(f)
	}
	return &told
}

// besidePack is the folder that a pack's files go into unless told otherwise.
func besidePack(pack string) string {
	if ext := filepath.Ext(pack); strings.EqualFold(ext, ".pdf") {
		return strings.TrimSuffix(pack, ext)
	}
	return pack + "-files"
}

// tellRest says what of the pack was not written.
func (p *packed) tellRest(s streams) {
	var pictures []string
	for _, picture := range p.Contents.Pictures {
		pictures = append(pictures, path.Join(path.Dir(p.Contents.Plans[picture.Plan].File), picture.Name))
	}
	if slices.Sort(pictures); len(pictures) > 0 {
		fmt.Fprintf(s.out, "pictures to put back where the plan has them: %s\n", diag.OneLine(strings.Join(pictures, ", ")))
	}
	for _, e := range p.Contents.Files {
		if e.Called != "" {
			fmt.Fprintf(s.out, "%s: the plan has it as %s, which is no name on every system\n", diag.OneLine(e.Name), diag.OneLine(e.Called))
		}
	}
	p.tellExtras(s)
}

// tellExtras says which attached files are none of the pack's.
func (p *packed) tellExtras(s streams) {
	if extras := p.Extras(); len(extras) > 0 {
		fmt.Fprintf(s.err, "%s: attached by another program: %s\n", p.path, diag.OneLine(strings.Join(extras, ", ")))
	}
}

// writeFiles writes files into a folder, which is made if it is not there, each
// whole or not at all. No name and no link in the folder leads out of it.
func writeFiles(dir string, files []archive.File, force bool) error {
	_, err := os.Stat(dir)
	made := errors.Is(err, fs.ErrNotExist)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return plainError(dir, err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return plainError(dir, err)
	}
	defer root.Close()
	if !made && !force {
		var there []string
		for _, f := range files {
			if _, err := root.Lstat(filepath.FromSlash(f.Name)); err == nil {
				there = append(there, filepath.Join(dir, filepath.FromSlash(f.Name)))
			}
		}
		if len(there) > 0 {
			return alreadyThere(there)
		}
	}
	for _, f := range files {
		if err := writeInside(root, f); err != nil {
			return plainError(filepath.Join(dir, filepath.FromSlash(f.Name)), err)
		}
	}
	return nil
}

// writeInside writes one file by way of a temporary one beside it.
func writeInside(root *os.Root, file archive.File) error {
	name := filepath.FromSlash(file.Name)
	if dir := path.Dir(file.Name); dir != "." {
		if err := root.MkdirAll(filepath.FromSlash(dir), 0o777); err != nil {
			return err
		}
	}
	if info, err := root.Lstat(name); err == nil && info.IsDir() {
		return errors.New("it is a folder")
	}
	temp, err := temporary(name, root.OpenFile)
	if err != nil {
		return err
	}
	within := filepath.Join(filepath.Dir(name), filepath.Base(temp.Name()))
	err = fill(temp, file.Data, 0)
	if err == nil {
		err = root.Rename(within, name)
	}
	if err != nil {
		root.Remove(within)
	}
	return err
}
