package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
)

// writeFile writes a file whole or not at all: into a temporary file in the
// same folder, flushed to the disk, then renamed over the target. Whatever
// fails, a file that was there stays as it was. An existing file keeps its
// permissions; a link is followed; a device or pipe is written to as it is.
//
// An interrupt that comes meanwhile is obeyed when the file is whole, so no
// temporary file stays behind.
func writeFile(path string, data []byte) error {
	interrupted := make(chan os.Signal, 1)
	signal.Notify(interrupted, os.Interrupt, syscall.SIGTERM)
	defer signal.Stop(interrupted)
	if err := replace(path, data); err != nil {
		return plainError(path, err)
	}
	select {
	case <-interrupted:
		return errors.New("interrupted")
	default:
		return nil
	}
}

func replace(path string, data []byte) error {
	mode := fs.FileMode(0)
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	case info.IsDir():
		return errors.New("it is a folder")
	case !info.Mode().IsRegular():
		return os.WriteFile(path, data, 0)
	case info.Mode()&0o200 == 0:
		return errors.New("it is write-protected")
	default:
		mode = info.Mode().Perm()
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return err
		}
	}
	temp, err := temporary(path, os.OpenFile)
	if err != nil {
		return err
	}
	if err := fill(temp, data, mode); err != nil {
		os.Remove(temp.Name())
		return err
	}
	if err := os.Rename(temp.Name(), path); err != nil {
		os.Remove(temp.Name())
		return err
	}
	flushFolder(filepath.Dir(path))
	return nil
}

// temporary makes a new empty file beside path, with the permissions any new
// file of the user's gets; open is os.OpenFile, or that of a folder which nothing
// leads out of.
func temporary(path string, open func(name string, flag int, mode fs.FileMode) (*os.File, error)) (*os.File, error) {
	dir, base := filepath.Split(path)
	for n := os.Getpid(); ; n++ {
		name := filepath.Join(dir, fmt.Sprintf(".%s.%d.tmp", shortened(base), n))
		f, err := open(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// shortened leaves room for what temporary adds: most systems allow names of
// 255 bytes.
func shortened(name string) string {
	const most = 200
	if len(name) > most {
		return name[:most]
	}
	return name
}

// fill writes, flushes and closes f. Mode 0 leaves its permissions alone.
func fill(f *os.File, data []byte, mode fs.FileMode) error {
	_, err := f.Write(data)
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// flushFolder makes the rename last through a power cut, where the system
// offers a way; where it does not, the file itself is still whole.
func flushFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}
