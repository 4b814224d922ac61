// Package xlsx writes lists as a workbook for spreadsheets: a sheet a list, made
// to be filtered, sorted and printed. It is the only importer of excelize.
//
// The same lists give the same bytes. What comes from the plan, the parts list
// or the goods files is written as text and never as a formula; the only
// formulas are the sums under the columns.
package xlsx

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"maps"
	"slices"
	"time"

	"github.com/xuri/excelize/v2"

	"setwright/layout/list"
	"setwright/layout/plan"
	"setwright/render/words"
)

// Options are what a workbook needs besides the lists.
type Options struct {
	Program     string // name and version, for the document's properties
	Fingerprint string // of the plan and its files, printed on each page
	Stopped     bool   // every printed page says "not for construction"
}

// book is a workbook being written.
type book struct {
	file   *excelize.File
	plan   *plan.Plan
	words  *words.Words
	o      Options
	styles [styleCount]int // the library's indices
}

// Write writes the lists of a plan, one at least, as a workbook, in the plan's
// language and on its paper. It fails if w does, or if a list has more rows than
// a sheet takes. A sheet of more than 16 MB waits in a temporary file, if the
// system has room for one.
func Write(w io.Writer, p *plan.Plan, tables []*list.Table, o Options) error {
	b := &book{file: excelize.NewFile(), plan: p, words: words.In(p.Language), o: o}
	defer b.file.Close() // removes such files
	b.file.SetZipWriter(newArchive)
	if err := errors.Join(b.makeStyles(), b.properties()); err != nil {
		return err
	}
	for i, t := range tables {
		if err := b.sheet(t, i == 0); err != nil {
			return err
		}
	}
	return b.file.Write(w)
}

// properties are the plan's title, author, season, mark and date; what the plan
// does not tell is left out.
func (b *book) properties() error {
	// A new file is said to be made by someone, and on some day.
	b.file.Pkg.Delete("docProps/core.xml")
	date := b.plan.Date
	if date != "" {
		date += "T00:00:00Z"
	}
	return errors.Join(
		b.file.SetAppProps(&excelize.AppProperties{Application: b.o.Program}),
		b.file.SetDocProps(&excelize.DocProperties{
			Title: b.plan.Title, Subject: b.plan.Season, Creator: b.plan.By, Version: b.plan.Revision,
			Created: date, Modified: date, Keywords: b.o.Fingerprint, Language: b.words.Tag,
		}))
}

// archive is the ZIP file of a workbook: its parts in the order of their names,
// all as old as such a file can say. The library's own order changes.
type archive struct {
	*zip.Writer
	parts map[string]*bytes.Buffer
}

func newArchive(w io.Writer) excelize.ZipWriter {
	return &archive{zip.NewWriter(w), map[string]*bytes.Buffer{}}
}

// Create returns where to write a part, until Close.
func (a *archive) Create(name string) (io.Writer, error) {
	a.parts[name] = new(bytes.Buffer)
	return a.parts[name], nil
}

// Close writes every part.
func (a *archive) Close() error {
	oldest := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, name := range slices.Sorted(maps.Keys(a.parts)) {
		part, err := a.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: oldest})
		if err != nil {
			return err
		}
		if _, err := part.Write(finish(a.parts[name].Bytes())); err != nil {
			return err
		}
	}
	return a.Writer.Close()
}
