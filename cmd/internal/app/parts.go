package app

import (
	"encoding/json"
	"slices"
	"sync"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
	"benchlead/ui"
)

// parts are trees opened piece by piece: the lists when the program begins, a system
// when a machine of it is worked on. Several goroutines may ask.
type parts struct {
	files   []source.File // unread
	outline tree.Outline
	lists   *tree.Library

	lock   sync.Mutex
	opened []*tree.Library // of one system each, the last used last
}

// mostOpened is how many systems are held: the one on the bench, and those whose
// suspects are worked out meanwhile.
const mostOpened = 3

// newParts opens the lists. It is nil when the outline isn't that of the files: they
// were changed, and have to be read whole and checked.
func newParts(files []source.File, outline []byte) *parts {
	p := &parts{files: files}
	if json.Unmarshal(outline, &p.outline) != nil || tree.Digest(files) != p.outline.Digest {
		return nil
	}
	lists := p.named(p.outline.Lists)
	if len(lists) < len(p.outline.Lists) {
		return nil
	}
	p.lists = tree.OpenLists(lists, p.outline)
	return p
}

func (p *parts) named(names []string) (out []source.File) {
	for _, f := range p.files {
		if slices.Contains(names, f.Name) {
			out = append(out, f)
		}
	}
	return out
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
	is := tree.OpenSystem(p.named(slices.Concat(p.outline.Lists, p.outline.Systems[at].Files)), p.outline, id)
	if len(p.opened) >= mostOpened {
		p.opened = slices.Delete(p.opened, 0, len(p.opened)-mostOpened+1)
	}
	p.opened = append(p.opened, is)
	return is
}

// builtInParts are the built-in trees.
var builtInParts = sync.OnceValue(func() *parts {
	files, issues, err := readTrees(trees.Files, "trees")
	if err != nil || len(issues) > 0 {
		return nil
	}
	return newParts(files, trees.Outline)
})

// whole are trees that were opened all at once.
func whole(lib *tree.Library) func(system string) *tree.Library {
	return func(string) *tree.Library { return lib }
}

// lists is a bench with the trees alone, in parts where they are known to be right.
func (p *program) lists() (ui.Bench, error) {
	in := p.parts()
	if in != nil {
		return ui.Bench{Library: in.lists, Open: in.system}, nil
	}
	lib, err := p.library()
	return ui.Bench{Library: lib}, err
}

// parts are the built-in trees, or those of --trees once they were checked; nil when
// they have to be.
func (p *program) parts() *parts {
	if p.treeDir == "" {
		return builtInParts()
	}
	files, issues, err := readTrees(p.treesFrom())
	if err != nil || len(issues) > 0 {
		return nil // which is said when they are checked
	}
	return newParts(files, p.outlines().read(tree.Digest(files)))
}
