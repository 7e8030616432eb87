package tree

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/measure"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// Load reads, checks and compiles the files, which must have come through
// source.Open. Every issue of every file is reported, sorted. The Library holds
// what could be made sense of, also beside issues, so that an editor can show
// it; nothing may be walked with it unless there are no issues.
func Load(files []source.File) (*Library, source.Issues) {
	return load(files, (*builder).readFile)
}

// Open is Load of files with which Load finds nothing wrong: it leaves out the
// search through all ways of every tree and the trial of limits and circuits,
// which are for whoever writes them. What it does report is as Load reports it.
func Open(files []source.File) (*Library, source.Issues) {
	return load(files, func(b *builder, file *source.File) {
		b.trusting = true
		b.readFile(file)
	})
}

// load is Load with its own way of reading a file.
func load(files []source.File, read func(*builder, *source.File)) (*Library, source.Issues) {
	files = byName(files)
	b := newBuilder(files)
	for i := range files {
		read(b, &files[i])
	}
	b.noteShapes()
	b.stock()
	b.systems()
	b.circuits()
	b.trees()
	b.repairs()
	b.checkLibrary()
	b.lib.index()
	return b.lib, once(b.issues)
}

func byName(files []source.File) []source.File {
	files = slices.Clone(files)
	slices.SortStableFunc(files, func(a, b source.File) int { return strings.Compare(a.Name, b.Name) })
	return files
}

// noteShapes remembers which files couldn't be read, or only in part. What
// others refer to in them would be reported as unknown, over and over.
func (b *builder) noteShapes() {
	for _, i := range b.issues {
		b.badFiles[i.Place.File] = true
		b.quiet = b.quiet || unreadable[i.Code]
	}
}

var unreadable = map[source.Code]bool{
	CodeSyntax: true, CodeEmpty: true, CodeSecondDocument: true, CodeTwoThings: true, CodeUnknownThing: true,
	source.CodeNotText: true, source.CodeTooBig: true, source.CodeOddBreak: true,
}

// ofSystem is what messages about one mistake in a shared file differ in.
var ofSystem = regexp.MustCompile(` (in|of|for) system \S+`)

// once drops what was reported before for another system: a shared file is
// compiled for every system that includes it.
func once(issues source.Issues) source.Issues {
	type spot struct {
		code    source.Code
		place   source.Place
		message string
	}
	seen := map[spot]bool{}
	var out source.Issues
	for _, i := range issues {
		s := spot{i.Code, i.Place, ofSystem.ReplaceAllString(i.Message, "")}
		if i.Code == CodeCutOrder || i.Code == CodeSpan || i.Code == CodePossible || i.Code == CodeCondemned {
			s.message = "" // it holds the system's numbers
		}
		if seen[s] {
			continue
		}
		seen[s] = true
		out = append(out, i)
	}
	return gathered(out.Sorted())
}

// gathered reports a name that is missing once, where it is first used, however
// often it is used.
func gathered(issues source.Issues) source.Issues {
	type cause struct {
		code    source.Code
		message string
	}
	first, more := map[cause]int{}, map[int]int{}
	var out source.Issues
	for _, i := range issues {
		c := cause{i.Code, i.Message}
		if k, ok := first[c]; ok && strings.HasPrefix(string(i.Code), "unknown-") && i.Code != CodeUnknownField {
			more[k]++
			continue
		}
		first[c] = len(out)
		out = append(out, i)
	}
	for k, n := range more {
		tail := "; 1 more place names it"
		if n > 1 {
			tail = fmt.Sprintf("; %d more places name it", n)
		}
		out[k].Message += tail
	}
	return out
}

// digest names the text that was loaded: same names and texts, same digest.
func digest(files []source.File) string {
	sum := sha256.New()
	for _, f := range files {
		// The lengths keep a name from running into the text after it.
		fmt.Fprintf(sum, "%d %d\n%s%s", len(f.Name), len(f.Text), f.Name, f.Text)
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// readFile reads one file into the shape that its key names.
func (b *builder) readFile(file *source.File) {
	node, issues := form.Parse(file)
	if len(issues) > 0 {
		b.issues = append(b.issues, issues...)
		return
	}
	r := form.Reader(file)
	switch thing(r, node) {
	case "system":
		b.systemShapes = append(b.systemShapes, shaped[systemShape](r, node))
	case "shared":
		b.sharedShapes = append(b.sharedShapes, shaped[sharedShape](r, node))
	case "tree":
		b.treeShapes = append(b.treeShapes, shaped[treeShape](r, node))
	case "circuit":
		b.circuitShapes = append(b.circuitShapes, shaped[circuitShape](r, node))
	case "fragment":
		b.fragmentShapes = append(b.fragmentShapes, shaped[fragmentShape](r, node))
	case "lists":
		b.stockShapes = append(b.stockShapes, shaped[stockShape](r, node))
	}
	b.issues = append(b.issues, r.Issues...)
}

func shaped[T any](r *shape.Reader, node *yaml.Node) *T {
	into := new(T)
	r.Read(node, into, "the file")
	return into
}

// lists are the keys of a file of lists.
var lists = shape.Keys[stockShape]()

// wholes are the keys of files that hold one thing. A circuit has parts, as
// lists have.
var (
	wholes      = []string{"system", "shared", "tree", "circuit", "fragment"}
	circuitKeys = shape.Keys[circuitShape]()
)

func hasKey(node *yaml.Node, name string) bool {
	for i := 0; i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == name {
			return true
		}
	}
	return false
}

// thing says what the file holds, by its keys.
func thing(r *shape.Reader, node *yaml.Node) string {
	if node.Kind != yaml.MappingNode {
		r.Report(CodeWrongKind, r.At(node), "the file must have keys and values", firstKeys)
		return ""
	}
	found, other := "", ""
	behind := hasKey(node, "circuit") || hasKey(node, "fragment")
	for i := 0; i+1 < len(node.Content); i += 2 {
		key := node.Content[i]
		kind := ""
		switch {
		case slices.Contains(wholes, key.Value):
			kind = key.Value
		case behind && slices.Contains(circuitKeys, key.Value):
		case slices.Contains(lists, key.Value):
			kind = "lists"
		}
		if kind != "" && found != "" && kind != found {
			r.Report(CodeTwoThings, r.At(key), "the file already holds something else: "+other, "move this into a file of its own")
			return ""
		}
		if kind != "" {
			found, other = kind, key.Value
		}
	}
	if found == "" {
		unknownThing(r, node)
	}
	return found
}

func unknownThing(r *shape.Reader, node *yaml.Node) {
	names := slices.Concat(wholes, lists)
	key, hint := node, firstKeys
	if len(node.Content) > 0 {
		key = node.Content[0]
		if near := source.Nearest(key.Value, names); near != "" {
			hint = "did you mean \"" + near + "\"?"
		}
	}
	r.Report(CodeUnknownThing, r.At(key), "what this file holds can't be told from its keys", hint)
}

func newBuilder(files []source.File) *builder {
	return &builder{
		lib: &Library{
			Systems: map[string]*System{}, Trees: map[string]*Tree{}, Repairs: map[string]*Repair{},
			Cautions: map[string]*Caution{}, Safe: map[string]*SafeItem{}, Parts: map[string]*Part{},
			Services: map[string]*Service{}, Meters: map[string]*measure.Meter{}, Digest: digest(files),
		},
		cites: map[string]string{}, notes: map[string]*systemNotes{}, badFiles: map[string]bool{},
	}
}
