package shop

import (
	"slices"
	"strings"
)

// Lacks are those of some tools that the shop has not said it owns; none while it has
// said nothing. A meter is always there.
func (s Settings) Lacks(tools []string) []string {
	var out []string
	for _, t := range tools {
		owned := slices.ContainsFunc(s.Tools, func(own string) bool { return sameTool(own, t) })
		if len(s.Tools) > 0 && !owned && t != "none" && t != "meter" && !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

// sameTool says whether two names are of one tool: capitals and one or many make no
// difference.
func sameTool(a, b string) bool {
	one := func(name string) string {
		words := strings.Fields(strings.ToLower(name))
		for i, w := range words {
			words[i] = strings.TrimSuffix(strings.TrimSuffix(w, "es"), "s")
		}
		return strings.Join(words, " ")
	}
	return one(a) == one(b)
}

// Unnamed are the tools of the shop that are none of the known ones: mistyped perhaps,
// and then the shop would be told that it lacks what it owns.
func (s Settings) Unnamed(known []string) []string {
	var out []string
	for _, t := range s.Tools {
		if !slices.Contains(known, t) {
			out = append(out, t)
		}
	}
	return out
}
