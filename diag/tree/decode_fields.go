package tree

import (
	"reflect"
	"strings"
)

// fields is what a shape's tags say.
type fields struct {
	names    []string // in the order of the shape
	byName   map[string]field
	required []string
	plain    []int
	key      []int
}

type field struct {
	index []int
	said  string // the key, quoted, for messages
	keyed bool
}

// fieldsOf reads the tags of a shape. Embedded shapes count as written out.
func fieldsOf(t reflect.Type) *fields {
	if known, ok := shapes[t]; ok {
		return known
	}
	return readTags(t)
}

// shapes holds the tags of every shape, read once.
var shapes = func() map[reflect.Type]*fields {
	all := map[reflect.Type]*fields{}
	for t := range kinds {
		all[t] = readTags(t)
	}
	return all
}()

func readTags(t reflect.Type) *fields {
	fs := &fields{byName: map[string]field{}}
	for _, f := range reflect.VisibleFields(t) {
		if f.Anonymous {
			continue
		}
		name, is := f.Tag.Get("yaml"), strings.Fields(f.Tag.Get("is"))
		var keyed bool
		for _, flag := range is {
			switch flag {
			case "plain":
				fs.plain = f.Index
			case "key":
				fs.key = f.Index
			case "keyed":
				keyed = true
			case "required":
				if name != "" {
					fs.required = append(fs.required, name)
				}
			}
		}
		if name != "" {
			fs.names = append(fs.names, name)
			fs.byName[name] = field{index: f.Index, said: `"` + name + `"`, keyed: keyed}
		}
	}
	return fs
}

// kinds names each shape in messages.
var kinds = map[reflect.Type]string{
	reflect.TypeFor[systemShape]():    "a system",
	reflect.TypeFor[sharedShape]():    "a shared file",
	reflect.TypeFor[complaintShape](): "a complaint",
	reflect.TypeFor[labelShape]():     "a label field",
	reflect.TypeFor[pointShape]():     "a point",
	reflect.TypeFor[stateShape]():     "a state",
	reflect.TypeFor[setupShape]():     "a setup",
	reflect.TypeFor[workShape]():      "a piece of work",
	reflect.TypeFor[testShape]():      "a test",
	reflect.TypeFor[leadsShape]():     `"leads"`,
	reflect.TypeFor[spanShape]():      "a range",
	reflect.TypeFor[bandShape]():      "a band",
	reflect.TypeFor[choiceShape]():    "a choice",
	reflect.TypeFor[faultShape]():     "a fault",
	reflect.TypeFor[sketchShape]():    "a sketch",
	reflect.TypeFor[treeShape]():      "a tree",
	reflect.TypeFor[stepShape]():      "a step",
	reflect.TypeFor[stockShape]():     "a file of lists",
	reflect.TypeFor[repairShape]():    "a repair",
	reflect.TypeFor[useShape]():       "a part of a repair",
	reflect.TypeFor[ruleShape]():      "a rule",
	reflect.TypeFor[cautionShape]():   "a caution",
	reflect.TypeFor[safeShape]():      "a make-safe item",
	reflect.TypeFor[settingShape]():   "a setting",
	reflect.TypeFor[partShape]():      "a part",
	reflect.TypeFor[meterShape]():     "a meter",
	reflect.TypeFor[scaleShape]():     "a scale",
	reflect.TypeFor[sourceShape]():    "a source",
	reflect.TypeFor[pair]():           "",
	reflect.TypeFor[proofShape]():     "",
	reflect.TypeFor[thenShape]():      "",
}
