package archive

import (
	"bytes"
	"io/fs"
	"path"
	"time"
)

// sources is the files of one plan as a file system without folders: it knows
// the names that the plan gives its files and no others.
type sources struct {
	archive *Archive
	folder  string
}

// Open opens one file (fs.FS).
func (s sources) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	f, ok := s.archive.named(s.folder, name)
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &open{bytes.NewReader(f.Data), info{path.Base(name), len(f.Data)}}, nil
}

// open is one file that is being read.
type open struct {
	*bytes.Reader
	info info
}

func (o *open) Stat() (fs.FileInfo, error) { return o.info, nil }
func (o *open) Close() error               { return nil }

type info struct {
	name string
	size int
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return int64(i.size) }
func (i info) Mode() fs.FileMode  { return 0o444 }
func (i info) ModTime() time.Time { return time.Time{} }
func (i info) IsDir() bool        { return false }
func (i info) Sys() any           { return nil }
