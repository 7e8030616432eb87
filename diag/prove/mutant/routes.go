package mutant

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/tree"
)

// step is one step of a tree as it is written.
type step struct {
	id      string
	key     *yaml.Node
	content *yaml.Node
	routes  []route
}

// route is one way on from a step: the answer, and where the next step is named.
type route struct {
	answer string // "then" where there is one way, "else" of a piece of work
	to     *yaml.Node
}

// tree makes mutants of every step, if the file is a tree.
func (p *page) tree(top *yaml.Node) {
	steps := value(top, "steps")
	if word(top, "tree") == "" || steps == nil || steps.Kind != yaml.MappingNode {
		return
	}
	t := sketch{page: p, id: word(top, "tree"), begin: value(top, "begin")}
	for i := 0; i+1 < len(steps.Content); i += 2 {
		t.steps = append(t.steps, newStep(steps.Content[i], steps.Content[i+1]))
	}
	for _, s := range t.steps {
		t.swaps(s)
		t.bypass(s)
	}
}

// sketch is a tree as it is written.
type sketch struct {
	*page
	id    string
	begin *yaml.Node
	steps []step
}

func newStep(key, content *yaml.Node) step {
	s := step{id: key.Value, key: key, content: content}
	switch then := value(content, "then"); {
	case then == nil:
	case then.Kind == yaml.MappingNode:
		for i := 0; i+1 < len(then.Content); i += 2 {
			s.routes = append(s.routes, route{then.Content[i].Value, then.Content[i+1]})
		}
	default:
		s.routes = append(s.routes, route{"then", then})
	}
	if other := value(content, "else"); other != nil {
		s.routes = append(s.routes, route{"else", other})
	}
	return s
}

// to is where an answer leads; empty for an answer that has no route.
func (s step) to(answer string) string {
	i := slices.IndexFunc(s.routes, func(r route) bool { return r.answer == answer })
	if i < 0 {
		return ""
	}
	return s.routes[i].to.Value
}

// swaps lets each two routes of a step that lead to different steps lead where
// the other did.
func (t sketch) swaps(s step) {
	for i, a := range s.routes {
		for _, b := range s.routes[i+1:] {
			if a.to.Value == b.to.Value {
				continue
			}
			ways := []Way{{s.id, a.answer}, {s.id, b.answer}}
			switch {
			case b.answer == "else": // the answers of a piece of work have no names
				ways = []Way{{Step: s.id}}
			case a.answer != tree.Unsure && b.answer != tree.Unsure:
				// What is too close to call may be called when its two answers come to
				// lead to one step.
				ways = append(ways, Way{s.id, tree.Unsure})
			}
			fromA, toA := t.span(a.to)
			fromB, toB := t.span(b.to)
			t.add(Mutant{
				Kind: Swap, Name: fmt.Sprintf("swap %s (%s, %s)", s.id, a.answer, b.answer), Place: t.place(a.to),
				Says:  fmt.Sprintf("%s leads to %s and %s to %s, instead of the other way round", a.answer, b.to.Value, b.answer, a.to.Value),
				Touch: Touch{Tree: t.id, Ways: ways},
			}, edit{fromA, toA, t.Text[fromB:toB]}, edit{fromB, toB, t.Text[fromA:toA]})
		}
	}
}
