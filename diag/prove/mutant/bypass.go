package mutant

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/tree"
)

// bypass takes a step out of its tree: every way into it leads on to where the
// step leads. A step left standing with no way into it would be refused for that
// alone; so what a proof goes by is gone with it.
func (t sketch) bypass(s step) {
	to := t.onwards(s)
	if to == s.id {
		return
	}
	edits := t.without(s)
	touch := Touch{Tree: t.id, LostBy: t.evidence(s)}
	if touch.Lost = cmp.Or(word(s.content, "find"), word(s.content, "clear")); touch.Lost == "" {
		touch.Ways = []Way{{Step: s.id}}
	}
	if t.begin != nil && t.begin.Value == s.id {
		edits = append(edits, t.point(route{to: t.begin}, to))
	}
	for _, from := range t.steps {
		if from.id == s.id {
			continue
		}
		leads := false
		for _, r := range from.routes {
			if r.to.Value == s.id {
				edits, leads = append(edits, t.point(r, to)), true
			}
		}
		// Here more answers lead to one step than before, and are taken together.
		if leads && slices.ContainsFunc(from.routes, func(r route) bool { return r.to.Value == to }) {
			touch.Ways = append(touch.Ways, Way{from.id, tree.Unsure})
		}
	}
	t.add(Mutant{
		Kind: Bypass, Name: "bypass " + s.id, Place: t.place(s.key),
		Says:  fmt.Sprintf("the step %s is gone; what led to it leads to %s", s.id, to),
		Touch: touch,
	}, edits...)
}

// onwards is where a step leads: one that asks, by the answer of a healthy
// machine, or else the first that is an answer; one that walks a tree, as if that
// had cleared all; one that stops the work, to the end.
func (t sketch) onwards(s step) string {
	if test := word(s.content, "test"); test != "" {
		if to := t.healthyRoute(s, test); to != "" {
			return to
		}
	}
	if to := s.to(tree.Cleared); to != "" {
		return to
	}
	for _, r := range s.routes {
		if r.answer != tree.Unsure && r.answer != "else" {
			return r.to.Value
		}
	}
	return tree.End
}

// healthyRoute is where every answer of a healthy machine leads; empty if they
// lead to several steps or the test doesn't say what is healthy.
func (t sketch) healthyRoute(s step, id string) string {
	for _, system := range t.lib.Trees[t.id].Systems {
		sys := t.lib.Systems[system]
		if sys == nil || sys.Test(id) == nil {
			continue
		}
		to := ""
		for _, band := range healthy(sys, sys.Test(id)) {
			if to != "" && s.to(band) != to {
				return ""
			}
			to = s.to(band)
		}
		return to
	}
	return ""
}

// evidence are the tests that a find or clear step goes by; other steps go by none.
func (t sketch) evidence(s step) []string {
	var out []string
	if by := value(s.content, "by"); by != nil {
		for i := 0; i+1 < len(by.Content); i += 2 {
			out = append(out, by.Content[i].Value)
		}
	}
	return out
}

// point lets a route lead to another step.
func (t sketch) point(r route, to string) edit {
	from, end := t.span(r.to)
	return edit{from, end, inQuotes(to)}
}

// without takes the lines of a step out of the text and leaves them empty.
func (t sketch) without(s step) []edit {
	first := s.key.Line - 1
	if strings.TrimSpace(t.line(first)[:s.key.Column-1]) != "" {
		t.fail(s.key, "write each step on a line of its own")
		return nil
	}
	var out []edit
	for i := first; i < len(t.lines); i++ {
		line := t.line(i)
		if i > first && strings.TrimSpace(line) != "" && indent(line) < s.key.Column {
			break
		}
		out = append(out, edit{t.lines[i], t.lines[i] + len(line), ""})
	}
	return out
}
