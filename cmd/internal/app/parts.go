package app

import (
	"encoding/json"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
	"benchlead/ui"
)

// parts are the built-in trees, opened piece by piece: the lists when the program
// begins, a system when a machine of it is worked on. Several goroutines may ask.
type parts struct {
	texts   []source.File // unread
	outline tree.Outline
	lists   *tree.Library

	lock   sync.Mutex
	opened []*tree.Library // of one system each, the last used last
}

// mostOpened is how many systems are held: the one on the bench, and those whose
// suspects are worked out meanwhile.
const mostOpened = 3

// builtInParts opens the lists. It is nil when the outline isn't that of these trees:
// they were changed, and have to be read whole and checked.
var builtInParts = sync.OnceValue(func() *parts { return newParts(trees.Files, trees.Outline) })

func newParts(from fs.FS, outline []byte) *parts {
	p := new(parts)
	if json.Unmarshal(outline, &p.outline) != nil {
		return nil
	}
	texts, err := textsOf(from)
	if err != nil || tree.Digest(texts) != p.outline.Digest {
		return nil
	}
	p.texts = texts
	lists, ok := p.read(p.outline.Lists)
	if !ok {
		return nil
	}
	p.lists = tree.OpenLists(lists, p.outline)
	return p
}

// textsOf are the built-in files as they lie there, for their digest.
func textsOf(from fs.FS) ([]source.File, error) {
	var out []source.File
	err := fs.WalkDir(from, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(name, ".yaml") {
			return err
		}
		text, err := fs.ReadFile(from, name)
		out = append(out, source.File{Name: "trees/" + name, Text: string(text)})
		return err
	})
	return out, err
}

// read opens files as a person's would be.
func (p *parts) read(names []string) (out []source.File, ok bool) {
	for _, f := range p.texts {
		if !slices.Contains(names, f.Name) {
			continue
		}
		file, issues := source.Open(f.Name, []byte(f.Text))
		if len(issues) > 0 {
			return nil, false
		}
		out = append(out, *file)
	}
	return out, len(out) == len(names)
}

// system opens one; nil if there is none of that id.
func (p *parts) system(id string) *tree.Library {
	p.lock.Lock()
	defer p.lock.Unlock()
	if at := slices.IndexFunc(p.opened, func(l *tree.Library) bool { return l.Systems[id] != nil }); at >= 0 {
		is := p.opened[at]
		p.opened = append(slices.Delete(p.opened, at, at+1), is)
		return is
	}
	at := slices.IndexFunc(p.outline.Systems, func(h tree.Head) bool { return h.ID == id })
	if at < 0 {
		return nil
	}
	files, ok := p.read(slices.Concat(p.outline.Lists, p.outline.Systems[at].Files))
	if !ok {
		return nil
	}
	if len(p.opened) >= mostOpened {
		p.opened = slices.Delete(p.opened, 0, len(p.opened)-mostOpened+1)
	}
	p.opened = append(p.opened, tree.OpenSystem(files, p.outline, id))
	return p.opened[len(p.opened)-1]
}

// whole are trees that were opened all at once.
func whole(lib *tree.Library) func(system string) *tree.Library {
	return func(string) *tree.Library { return lib }
}

// lists is a bench with the trees alone: the built-in ones in parts, others whole.
func (p *program) lists() (ui.Bench, error) {
	if p.treeDir == "" {
		if in := builtInParts(); in != nil {
			return ui.Bench{Library: in.lists, Open: in.system}, nil
		}
	}
	lib, err := p.library()
	return ui.Bench{Library: lib}, err
}
