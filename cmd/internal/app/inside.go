package app

import (
	"errors"
	"io/fs"
	"os"
)

// inside is a folder out of which no link leads: trees from a stranger read nothing
// that was not named.
func inside(folder string) fs.FS {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return unread{err}
	}
	return root.FS()
}

// unread is a folder that could not be opened.
type unread struct{ err error }

func (u unread) Open(name string) (fs.File, error) {
	var why *fs.PathError
	if errors.As(u.err, &why) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: why.Err}
	}
	return nil, u.err
}
