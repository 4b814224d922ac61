package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/layout/seasons"
	"setwright/render/reader"
)

const (
	// mostPack is the largest file that is taken for a pack, in bytes: more than a
	// hundred times that of any sample.
	mostPack = 64 << 20
	// readers is how many packs are read at once; each may take several times its
	// size in memory.
	readers = 2
)

// shelf is the packs in a folder and in the folders under it.
type shelf struct {
	dir      string
	names    []string // of all PDFs, from the folder
	packs    []seasons.Pack
	findings diag.List
}

// readShelf reads what packs say of themselves. Whatever is no pack, or cannot
// be read, is a finding.
func readShelf(dir string) (*shelf, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, plainError(dir, err)
	}
	defer root.Close()
	s := &shelf{dir: dir}
	if err := s.look(root.FS()); err != nil {
		return nil, plainError(dir, err)
	}
	read := make([]taken, len(s.names))
	next := make(chan int)
	var busy sync.WaitGroup
	for range readers {
		busy.Go(func() {
			t := taker{fsys: root.FS()}
			for i := range next {
				read[i] = t.take(s.names[i])
			}
		})
	}
	for i := range s.names {
		next <- i
	}
	close(next)
	busy.Wait()
	for i, t := range read {
		file := filepath.Join(dir, filepath.FromSlash(s.names[i]))
		if t.finding.Code != "" {
			t.finding.At = diag.Span{File: file}
			for n := range t.finding.Notes {
				t.finding.Notes[n].At.File = inPack(file, t.finding.Notes[n].At.File)
			}
			s.findings.Add(t.finding)
			continue
		}
		s.packs = append(s.packs, seasons.Pack{File: file, Mark: t.mark, Summary: *t.summary})
	}
	return s, nil
}

// look finds all PDFs by their names, without following links.
func (s *shelf) look(fsys fs.FS) error {
	var others []string
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil && name == ".":
			return err
		case err != nil:
			s.note(name, diag.Error, "unreadable", plainError("it cannot be read", err).Error())
			return fs.SkipDir
		case d.IsDir():
		case d.Type()&fs.ModeSymlink != 0:
			// What a link in the folder leads to is found by its own name.
			if _, err := fs.Stat(fsys, name); err != nil {
				s.note(name, diag.Note, "link", "this link leads out of the folder, or nowhere: it is not followed")
			}
		case !d.Type().IsRegular() || !strings.EqualFold(filepath.Ext(name), ".pdf"):
			others = append(others, name)
		default:
			s.names = append(s.names, name)
		}
		return nil
	})
	if len(others) > 0 {
		s.note(".", diag.Note, "other-files", fmt.Sprintf("left out, being no plain files with names that end in .pdf: %s", namedFew(others)))
	}
	return err
}

// namedFew names a few things and counts the rest.
func namedFew(names []string) string {
	const most = 5
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}

// note adds a finding about a file of the folder.
func (s *shelf) note(name string, level diag.Level, code, message string) {
	s.findings.Add(diag.Finding{Level: level, Code: code, At: diag.Span{File: filepath.Join(s.dir, filepath.FromSlash(name))}, Message: message})
}

// taken is what one file says of itself, or what is wrong with it.
type taken struct {
	mark    string
	summary *archive.Summary
	finding diag.Finding // without its place; it has a code if there is no summary
}

// taker reads one file after another into the same memory.
type taker struct {
	fsys   fs.FS
	buffer []byte
}

func (t *taker) take(name string) taken {
	fault := func(level diag.Level, code, message string) taken {
		return taken{finding: diag.Finding{Level: level, Code: code, Message: message}}
	}
	data, err := t.read(name)
	switch {
	case errors.Is(err, errPackSize):
		return fault(diag.Note, "too-large", err.Error())
	case err != nil:
		return fault(diag.Error, "unreadable", plainError("it cannot be read", err).Error())
	}
	_, files, err := attached(data)
	switch {
	case errors.Is(err, reader.ErrNotPDF):
		return fault(diag.Note, "no-pack", "this is no PDF, whatever its name: it is left out")
	case err != nil:
		return fault(diag.Error, "unreadable", err.Error())
	}
	pack, found := archive.Open(files)
	switch {
	case pack == nil && found[0].Code == "no-contents" && !ended(data):
		return fault(diag.Error, "unreadable", reader.ErrDamaged.Error())
	case pack == nil && found[0].Code == "no-contents":
		return fault(diag.Note, "no-pack", "this PDF carries no sources, so that it is no pack: it is left out")
	case pack == nil:
		return fault(diag.Error, "forged-pack", found[0].Message)
	case len(found) > 0:
		forged := fault(diag.Error, "forged-pack", "this pack is not as it was made: it is left out")
		for _, f := range found {
			forged.finding.Notes = append(forged.finding.Notes, diag.Related{At: f.At, Message: f.Message})
		}
		return forged
	case pack.Contents.Summary == nil:
		return fault(diag.Note, "no-unit", fmt.Sprintf("these sheets, of setwright %s, are not of one dressed unit: they are left out", pack.Contents.Command))
	}
	return taken{mark: pack.Contents.Fingerprint, summary: pack.Contents.Summary}
}

// ended says whether a PDF has an end: what is cut short may lack only that, and
// what was attached. Readers look for it in the last 1,024 bytes (ISO 32000-1,
// annex H.3).
func ended(data []byte) bool {
	return bytes.Contains(data[max(0, len(data)-1024):], []byte("%%EOF"))
}

var errPackSize = fmt.Errorf("this file is larger than %d MB: it is left out", mostPack>>20)

// read reads a file whole, into the buffer.
func (t *taker) read(name string) ([]byte, error) {
	f, err := t.fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if info.Size() > mostPack {
		return nil, errPackSize
	}
	if size := int(info.Size()); size > cap(t.buffer) {
		t.buffer = make([]byte, size)
	}
	n, err := io.ReadFull(f, t.buffer[:info.Size()])
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		err = nil // it has become shorter, or is empty
	}
	return t.buffer[:n], err
}
