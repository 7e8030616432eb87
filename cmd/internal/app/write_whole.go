package app

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// writeWhole writes a file whole or not at all: a report is never left half
// written over an older one.
func writeWhole(name string, write func(io.Writer) error) error {
	return writeAllWhole([]string{name}, func(to []io.Writer) error { return write(to[0]) })
}

// writeAllWhole is writeWhole for files that belong together: they come to their
// names once all of them are written.
func writeAllWhole(names []string, write func([]io.Writer) error) error {
	var files []*os.File
	var to []io.Writer
	defer func() {
		for _, f := range files {
			_ = f.Close() // closed already, and gone, when it was renamed
			_ = os.Remove(f.Name())
		}
	}()
	for _, name := range names {
		f, err := os.CreateTemp(filepath.Dir(name), ".benchlead-*")
		if err != nil {
			return err
		}
		files, to = append(files, f), append(to, f)
	}
	if err := write(to); err != nil {
		return err
	}
	for _, f := range files {
		if err := firstOf(f.Sync(), f.Close()); err != nil {
			return err
		}
	}
	return bring(files, names)
}

// bring gives written files their names. When one can't have its name, those that had
// theirs give them back.
func bring(files []*os.File, names []string) error {
	var back, over []func()
	for i, f := range files {
		undo, done, err := takePlace(f.Name(), names[i])
		if err != nil {
			for _, undo := range slices.Backward(back) {
				undo()
			}
			return err
		}
		back, over = append(back, undo), append(over, done)
	}
	for _, done := range over {
		done()
	}
	return nil
}

// takePlace puts a file where another may be, which is kept until over is called.
func takePlace(part, name string) (back, over func(), err error) {
	if is, err := os.Lstat(name); err == nil && is.IsDir() {
		return nil, nil, fmt.Errorf("%s is a folder; name a file", name)
	}
	old := part + ".old"
	err = os.Link(name, old) // so that a file has the name at every moment
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		err = os.Rename(name, old)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return func() { _ = os.Remove(name) }, func() {}, os.Rename(part, name)
	}
	if err != nil {
		return nil, nil, err
	}
	back = func() { _ = os.Rename(old, name) }
	if err := os.Rename(part, name); err != nil {
		back()
		return nil, nil, err
	}
	return back, func() { _ = os.Remove(old) }, nil
}
