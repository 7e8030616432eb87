package app

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"benchlead/diag/tree"
)

// outlines keeps the outlines of a shop's own trees, so that what was checked once is
// not checked at each start. They are among what can be made again.
type outlines cloudFiles

func (p *program) outlines() outlines { return outlines(p.cloudFiles()) }

// path names an outline by the trees and by the program that checked them: another
// one may see more.
func (dir outlines) path(digest string) string {
	program, err := os.Executable()
	if err != nil {
		return ""
	}
	info, err := os.Stat(program)
	if err != nil {
		return ""
	}
	sum := sha256.Sum256(fmt.Append(nil, version, info.Size(), info.ModTime().UnixNano(), digest))
	return filepath.Join(string(dir), hex.EncodeToString(sum[:16])+".trees")
}

// read is nil when these trees were never found right.
func (dir outlines) read(digest string) []byte {
	text, err := os.ReadFile(dir.path(digest))
	if dir == "" || err != nil {
		return nil
	}
	return text
}

// write keeps one as well as it can: without it the trees are checked again.
func (dir outlines) write(o tree.Outline) {
	text, err := json.Marshal(o)
	if dir == "" || err != nil || os.MkdirAll(string(dir), 0o700) != nil {
		return
	}
	_ = writeWhole(dir.path(o.Digest), func(w io.Writer) error { _, err := w.Write(text); return err })
	cloudFiles(dir).thin()
}
