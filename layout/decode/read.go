package decode

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"setwright/layout/diag"
)

// Limits on the size of files, in bytes. A plan is small; a goods list of a
// hundred thousand products is not.
const (
	PlanLimit  = 4 << 20
	PartsLimit = 4 << 20
	GoodsLimit = 32 << 20
)

// Read reads a file the author named. Backslashes are taken for slashes;
// files outside the folder, directories, missing files and files larger than
// the limit are reported at the place of the name, or of the file itself if
// that is nowhere. It never holds more than the limit in memory.
func Read(fsys fs.FS, name string, limit int64, at diag.Span, into *diag.List) ([]byte, bool) {
	if at == (diag.Span{}) {
		at = diag.Span{File: name}
	}
	fail := func(code, message, fix string) ([]byte, bool) {
		into.Add(diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Fix: fix})
		return nil, false
	}
	clean, ok := Clean(name)
	if !ok {
		return fail("outside-folder", fmt.Sprintf("%s is not in the plan's folder", quote(name)),
			"put the file beside the plan or in a folder under it")
	}
	// Looked at before it is opened: opening a pipe waits for its other end.
	info, err := fs.Stat(fsys, clean)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fail("no-file", fmt.Sprintf("there is no file %s", quote(name)), suggestFile(fsys, clean))
	case err != nil:
		return fail("cannot-read", fmt.Sprintf("%s cannot be read: %v", quote(name), plainError(err)), "")
	case info.IsDir():
		return fail("not-a-file", fmt.Sprintf("%s is a folder, not a file", quote(name)), "")
	case !info.Mode().IsRegular():
		return fail("not-a-file", fmt.Sprintf("%s is not a plain file", quote(name)), "")
	case info.Size() > limit:
		return fail("too-large", fmt.Sprintf("%s is larger than %d MB", quote(name), limit>>20), "")
	}
	f, err := fsys.Open(clean)
	if err != nil {
		return fail("cannot-read", fmt.Sprintf("%s cannot be read: %v", quote(name), plainError(err)), "")
	}
	defer f.Close()
	// Room at once for what it should hold: to grow with it takes twice as much.
	text := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead))
	_, err = text.ReadFrom(io.LimitReader(f, limit+1))
	switch {
	case err != nil:
		return fail("cannot-read", fmt.Sprintf("%s cannot be read: %v", quote(name), plainError(err)), "")
	case int64(text.Len()) > limit:
		return fail("too-large", fmt.Sprintf("%s is larger than %d MB", quote(name), limit>>20), "")
	}
	return text.Bytes(), true
}

// Clean is a name in a plan as a slash-separated path under the plan's folder,
// and false if it leads out of it.
func Clean(name string) (string, bool) {
	slashed := strings.ReplaceAll(name, `\`, "/")
	if slashed == "" || strings.HasPrefix(slashed, "/") || strings.ContainsRune(slashed, 0) ||
		len(slashed) > 1 && slashed[1] == ':' {
		return "", false
	}
	clean := path.Clean(slashed)
	return clean, fs.ValidPath(clean)
}

// suggestFile is the fix for a file that is not there: the nearest name in the
// same folder.
func suggestFile(fsys fs.FS, name string) string {
	dir, base := path.Split(name)
	entries, err := fs.ReadDir(fsys, path.Clean(dir))
	if err != nil {
		return ""
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	if near := diag.Near(base, names); near != "" {
		return "write " + quote(dir+near)
	}
	return ""
}

// plainError is a file error without the path, which the message has already.
func plainError(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
