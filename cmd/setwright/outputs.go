package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"setwright/layout/list"
)

// outputs are the files of a command that writes several, all of them made
// before the first is written.
type outputs struct {
	files  []*written
	folder string // to be made if it is not there; "" for none
}

// written is a file to write, or with the path - what goes to standard output.
type written struct {
	path, flag string
	data       bytes.Buffer
}

// file adds a file, which flag names, and returns what it is written into.
func (o *outputs) file(path, flag string) *bytes.Buffer {
	f := &written{path: path, flag: flag}
	o.files = append(o.files, f)
	return &f.data
}

// csv adds each table as a file of its own in a folder, which --csv names.
func (o *outputs) csv(dir string, tables []*list.Table) error {
	o.folder = dir
	var errs []error
	for _, t := range tables {
		errs = append(errs, list.WriteCSV(o.file(filepath.Join(dir, t.Name+".csv"), "--csv"), t))
	}
	return errors.Join(errs...)
}

// toStdout says whether any of the files goes to standard output.
func (o *outputs) toStdout() bool {
	return slices.ContainsFunc(o.files, func(f *written) bool { return f.path == "-" })
}

// check refuses a file that would replace one written just before, or one that
// keep says is to be kept.
func (o *outputs) check(keep func(path, flag string) error) error {
	for i, f := range o.files {
		for _, before := range o.files[:i] {
			if f.path != "-" && sameFile(f.path, before.path) {
				return fmt.Errorf("%s: another of the lists goes there; name another file with %s", f.path, f.flag)
			}
		}
	}
	for _, f := range o.files {
		if err := keep(f.path, f.flag); err != nil {
			return err
		}
	}
	return nil
}

// careful refuses to replace files that are there already, unless forced to:
// all of them are told at once. A device or a pipe is written to as it is.
func (o *outputs) careful(force bool) error {
	var there []string
	for _, f := range o.files {
		if info, err := os.Lstat(f.path); f.path != "-" && err == nil && (info.Mode().IsRegular() || info.Mode()&os.ModeSymlink != 0) {
			there = append(there, f.path)
		}
	}
	if force || len(there) == 0 {
		return nil
	}
	return alreadyThere(there)
}

// alreadyThere is the refusal to replace files.
func alreadyThere(files []string) error {
	if len(files) == 1 {
		return fmt.Errorf("%s: there already; --force replaces it", files[0])
	}
	return fmt.Errorf("%d files are there already; --force replaces them: %s", len(files), strings.Join(files, ", "))
}

// write writes each file whole.
func (o *outputs) write(stdout io.Writer) error {
	if o.folder != "" {
		if err := os.MkdirAll(o.folder, 0o777); err != nil {
			return plainError(o.folder, err)
		}
	}
	for _, f := range o.files {
		if f.path != "-" {
			if err := writeFile(f.path, f.data.Bytes()); err != nil {
				return err
			}
		} else if _, err := stdout.Write(f.data.Bytes()); err != nil {
			return plainError("standard output", err)
		}
	}
	return nil
}

// sameFile says whether two paths are one file, there or not.
func sameFile(a, b string) bool {
	first, err := os.Stat(a)
	second, err2 := os.Stat(b)
	if err == nil && err2 == nil {
		return os.SameFile(first, second)
	}
	a, err = filepath.Abs(a)
	b, err2 = filepath.Abs(b)
	return err == nil && err2 == nil && a == b
}
