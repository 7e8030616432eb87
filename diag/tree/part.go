package tree

import (
	"maps"
	"slices"

	"benchlead/diag/source"
)

// A library can be opened in parts: its outline with the lists first, which is what
// a machine is taken in with, and one system when it is worked on. Every file is then
// read once it is needed, and most never are.

// Outline says what a library holds, and which files. It is made of a library with
// which Load finds nothing wrong, and counts for these very texts.
type Outline struct {
	Digest  string   `json:"digest"` // of all the text
	Lists   []string `json:"lists"`  // files of what systems share: sources, parts, meters ...
	Systems []Head   `json:"systems"`
}

// Head is what is shown of a system before it is chosen, and where the rest of it is.
type Head struct {
	ID         string      `json:"id"`
	Title      string      `json:"title"`
	About      string      `json:"about"`
	Machine    string      `json:"machine"`
	Complaints []Complaint `json:"complaints"`
	Files      []string    `json:"files"` // besides the lists
}

// Digest is Library.Digest of these files.
func Digest(files []source.File) string { return digest(byName(files)) }

// OpenLists opens the files of an outline's lists. Of the systems the library has the
// heads alone: nothing can be walked with it.
func OpenLists(files []source.File, o Outline) *Library {
	lib := openPart(files, "", o.Digest)
	for _, h := range o.Systems {
		lib.Systems[h.ID] = &System{ID: h.ID, Title: h.Title, About: h.About, Machine: h.Machine, Complaints: h.Complaints}
	}
	lib.index()
	return lib
}

// OpenSystem opens one system from its files and those of the lists, with the trees
// and repairs that are for it. What these say of other systems is left out.
func OpenSystem(files []source.File, o Outline, system string) *Library {
	return openPart(files, system, o.Digest)
}

// openPart is load of some files of a library that was checked whole: what would be
// reported of them is only what isn't there.
func openPart(files []source.File, system, digest string) *Library {
	lib, _ := load(files, func(b *builder, file *source.File) {
		b.trusting, b.wanted, b.lib.Digest = true, system, digest
		b.readFile(file)
	})
	maps.DeleteFunc(lib.Trees, func(_ string, t *Tree) bool { return !slices.Contains(t.Systems, system) })
	maps.DeleteFunc(lib.Repairs, func(_ string, r *Repair) bool { return !slices.Contains(r.Systems, system) })
	return lib
}

// builds says whether a system is to be built.
func (b *builder) builds(system string) bool { return b.wanted == "" || b.wanted == system }

// LoadOutlined is Load with the outline of what was loaded.
func LoadOutlined(files []source.File) (*Library, Outline, source.Issues) {
	var made *builder
	lib, issues := load(files, func(b *builder, file *source.File) {
		made = b
		b.readFile(file)
	})
	if made == nil || len(issues) > 0 {
		return lib, Outline{Digest: lib.Digest}, issues
	}
	return lib, made.outline(), nil
}

func (b *builder) outline() Outline {
	o := Outline{Digest: b.lib.Digest, Lists: b.listFiles()}
	for _, id := range slices.Sorted(maps.Keys(b.lib.Systems)) {
		s := b.lib.Systems[id]
		o.Systems = append(o.Systems, Head{
			ID: id, Title: s.Title, About: s.About, Machine: s.Machine, Complaints: s.Complaints,
			Files: slices.DeleteFunc(b.filesOf(id), func(f string) bool { return slices.Contains(o.Lists, f) }),
		})
	}
	return o
}

// listFiles are the files that hold lists other than repairs.
func (b *builder) listFiles() []string {
	files := set{}
	for _, s := range b.stockShapes {
		for _, place := range s.listed() {
			files[place.File] = true
		}
	}
	return slices.Sorted(maps.Keys(files))
}

// filesOf are the files that a system is made from.
func (b *builder) filesOf(system string) []string {
	n, files := b.notes[system], set{}
	note := func(place source.Place) { files[place.File] = true }
	note(n.shape.System.Place)
	base := b.baseNamed(n.shape.Extends.Text)
	if base != nil {
		note(base.System.Place)
	}
	for _, s := range b.sharedShapes {
		if n.includes[s.Shared.Text] {
			note(s.Shared.Place)
		}
	}
	pieces := set{}
	for _, c := range b.circuitShapes {
		if c.Circuit.Text == system || base != nil && c.Circuit.Text == base.System.Text {
			note(c.Circuit.Place)
			for _, w := range c.Include {
				pieces[w.Text] = true
			}
		}
	}
	for _, f := range b.fragmentShapes {
		if pieces[f.Fragment.Text] {
			note(f.Fragment.Place)
		}
	}
	b.filesFor(system, note)
	return slices.Sorted(maps.Keys(files))
}

// filesFor notes the files of the trees and repairs that are for a system.
func (b *builder) filesFor(system string, note func(source.Place)) {
	for _, s := range b.treeShapes {
		if t := b.lib.Trees[s.Tree.Text]; t == nil || !slices.Contains(t.Systems, system) {
			continue
		}
		note(s.Tree.Place)
		if base := b.baseOfTree(s); s.Extends.Given() && base != nil {
			note(base.Tree.Place)
		}
	}
	for _, r := range b.lib.Repairs {
		if slices.Contains(r.Systems, system) {
			note(r.Place)
		}
	}
}

// listed are the places of what the file lists besides repairs.
func (s *stockShape) listed() []source.Place {
	return slices.Concat(
		placesOf(s.Cautions, func(x cautionShape) word { return x.Caution }),
		placesOf(s.Safe, func(x safeShape) word { return x.Item }),
		placesOf(s.Parts, func(x partShape) word { return x.Part }),
		placesOf(s.Meters, func(x meterShape) word { return x.Meter }),
		placesOf(s.Sources, func(x sourceShape) word { return x.Source }),
		placesOf(s.Troubles, func(x troubleShape) word { return x.Trouble }),
		placesOf(s.Services, func(x serviceShape) word { return x.Service }),
		placesOf(s.Words, func(x termShape) word { return x.Word }),
	)
}

func placesOf[T any](list []T, id func(T) word) []source.Place {
	out := make([]source.Place, len(list))
	for i, x := range list {
		out[i] = id(x).Place
	}
	return out
}
