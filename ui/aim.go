package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/repair"
	"benchlead/diag/walk"
)

// setAim ranks the ways to repair by something else: by the next aim, or by the one
// that is named or numbered. Nothing is recorded before a way is chosen.
func (s *Session) setAim(text string) (Reply, error) {
	aims := repair.Aims()
	at := (slices.Index(aims, s.aimNow()) + 1) % len(aims)
	if text != "" {
		at = aimOf(aims, text)
	}
	if at < 0 {
		var names []string
		for i, a := range aims {
			names = append(names, fmt.Sprintf("%d %s", i+1, a))
		}
		return Reply{}, fmt.Errorf("%q is no aim; there are: %s", text, strings.Join(names, ", "))
	}
	s.aim = aims[at]
	s.paths = s.offer()
	out := Reply{Said: []string{"Ranked by: " + string(s.aim) + "."}}
	if s.Position().Stage != walk.AtVerdict { // where they stand on the page
		out.Show = Paths
	}
	return out, nil
}

func aimOf(aims []repair.Aim, text string) int {
	if n, err := strconv.Atoi(text); err == nil {
		if n >= 1 && n <= len(aims) {
			return n - 1
		}
		return -1
	}
	return slices.IndexFunc(aims, func(a repair.Aim) bool { return strings.HasPrefix(string(a), strings.ToLower(text)) })
}

// aimNow is what the ways are ranked by.
func (s *Session) aimNow() repair.Aim {
	if s.aim == "" {
		return repair.Aims()[0]
	}
	return s.aim
}

// aimLines say what the ways are ranked by, and why the first is the first.
func (s *Session) aimLines() []string {
	if len(s.paths.Paths) == 0 {
		return nil
	}
	says := "Ranked by: " + string(s.aimNow())
	if s.paths.First != "" {
		says = "The first is " + trimStop(s.paths.First)
	}
	return []string{says + ". \"aim\" ranks by something else."}
}
