package repair

import (
	"cmp"
	"slices"

	"benchlead/diag/tree"
)

// mostCovers bounds how many sets of repairs are looked at. A real machine has
// a handful.
const mostCovers = 200

// covers lists every minimal set of repairs that clears all found faults: no
// repair in a set can be left out. cut is set when there are more than
// mostCovers. A set comes in the order of work. The order of the sets is fixed
// by the faults and the repairs' ids.
func covers(repairs []*tree.Repair, found []*tree.Fault) (sets [][]*tree.Repair, cut bool) {
	s := &search{found: found, clearedBy: make([][]int, len(found)), times: make([]int, len(found))}
	s.repairs = slices.SortedFunc(slices.Values(repairs), func(a, b *tree.Repair) int { return cmp.Compare(a.ID, b.ID) })
	s.banned = make([]int, len(s.repairs))
	for i, f := range found {
		for j, r := range s.repairs {
			if slices.Contains(r.Clears, f.ID) {
				s.clearedBy[i] = append(s.clearedBy[i], j)
			}
		}
	}
	if len(found) > 0 {
		s.grow()
	}
	return s.sets, s.cut
}

// search grows sets of repairs fault by fault.
type search struct {
	repairs   []*tree.Repair
	found     []*tree.Fault
	clearedBy [][]int // for each fault, the repairs that clear it
	times     []int   // for each fault, by how many chosen repairs it is cleared
	chosen    []int
	banned    []int // how many times each repair is ruled out further up
	sets      [][]*tree.Repair
	cut       bool
}

// grow takes the open fault that fewest repairs clear and tries each of them.
// A repair that was tried is ruled out for the ones after it, so that no set
// comes twice.
func (s *search) grow() {
	fault := s.open()
	if fault < 0 {
		if len(s.sets) == mostCovers {
			s.cut = true
			return
		}
		s.sets = append(s.sets, s.inOrder())
		return
	}
	for _, r := range s.clearedBy[fault] {
		if s.banned[r] == 0 && !s.cut {
			s.add(r, 1)
			if s.needed() {
				s.grow()
			}
			s.add(r, -1)
		}
		s.banned[r]++
	}
	for _, r := range s.clearedBy[fault] {
		s.banned[r]--
	}
}

func (s *search) open() int {
	best := -1
	for i := range s.found {
		if s.times[i] == 0 && (best < 0 || len(s.clearedBy[i]) < len(s.clearedBy[best])) {
			best = i
		}
	}
	return best
}

func (s *search) add(r, by int) {
	if by > 0 {
		s.chosen = append(s.chosen, r)
	} else {
		s.chosen = s.chosen[:len(s.chosen)-1]
	}
	for i := range s.found {
		if slices.Contains(s.clearedBy[i], r) {
			s.times[i] += by
		}
	}
}

// needed says whether each chosen repair alone clears some fault. Adding more
// repairs can't bring that back, so the search may stop here.
func (s *search) needed() bool {
	for _, r := range s.chosen {
		alone := false
		for i := range s.found {
			alone = alone || s.times[i] == 1 && slices.Contains(s.clearedBy[i], r)
		}
		if !alone {
			return false
		}
	}
	return true
}

// inOrder is the chosen set in the order of work: what was found first is
// repaired first, because it may mask the rest; conversions come last.
func (s *search) inOrder() []*tree.Repair {
	var set []*tree.Repair
	for _, r := range s.chosen {
		set = append(set, s.repairs[r])
	}
	slices.SortFunc(set, func(a, b *tree.Repair) int {
		return cmp.Or(
			cmp.Compare(lastIf(a.Kind == tree.Conversion), lastIf(b.Kind == tree.Conversion)),
			cmp.Compare(s.first(a), s.first(b)),
			cmp.Compare(a.ID, b.ID),
		)
	})
	return set
}

func lastIf(last bool) int {
	if last {
		return 1
	}
	return 0
}

func (s *search) first(r *tree.Repair) int {
	return slices.IndexFunc(s.found, func(f *tree.Fault) bool { return slices.Contains(r.Clears, f.ID) })
}
