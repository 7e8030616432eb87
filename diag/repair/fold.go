package repair

import (
	"fmt"
	"slices"

	"benchlead/diag/tree"
)

// fold takes out the paths that another one beats. One that is first under some aim
// is never beaten: what beats it would stand before it there.
func fold(paths []Path) (kept []Path, folded []Fold) {
	slices.SortFunc(paths, func(p, q Path) int { return p.compare(q, CheapestNow) })
	for _, p := range paths {
		if !slices.ContainsFunc(paths, func(q Path) bool { return q.beats(p) }) {
			kept = append(kept, p)
		}
	}
	for _, p := range paths {
		// What beats a path that itself beats p, beats p too: so if any path
		// does, one of those kept does.
		i := slices.IndexFunc(kept, func(k Path) bool { return k.beats(p) })
		if i >= 0 {
			folded = append(folded, Fold{Path: p, By: kept[i].ID, Because: because(kept[i], p)})
		}
	}
	return kept, folded
}

// beats says that p is at least as good as q in money, now, over the seasons and
// for a shop that owns the machine, in minutes, days, deposit, grade of parts, what
// can be returned, what must match and what is left open, and better in one of them.
// A repair and a conversion never beat each other, nor does a path that lacks a price.
func (p Path) beats(q Path) bool {
	if !p.Priced() || !q.Priced() || p.Converts != q.Converts {
		return false
	}
	if p.Total.GreaterThan(q.Total) || p.Minutes > q.Minutes || p.LeadDays > q.LeadDays || p.Deposit.GreaterThan(q.Deposit) {
		return false
	}
	if p.OverSeasons.GreaterThan(q.OverSeasons) || p.Margin.LessThan(q.Margin) || p.Comeback.Clears.LessThan(q.Comeback.Clears) {
		return false
	}
	if len(p.Waits) > len(q.Waits) || p.apart > q.apart || !p.noWorseParts(q) {
		return false
	}
	return p.Total.LessThan(q.Total) || p.Minutes < q.Minutes || p.LeadDays < q.LeadDays || p.betterGrade(q)
}

// sameRepairs compares by identity; both are in the order of work.
func (p Path) sameRepairs(q Path) bool { return slices.Equal(p.Repairs, q.Repairs) }

// noWorseParts compares part by part for the same repairs. Other repairs use
// other parts, so there p's worst must be as good as q's best.
func (p Path) noWorseParts(q Path) bool {
	if !p.allReturn() && q.allReturn() {
		return false
	}
	if !p.sameRepairs(q) {
		return p.worst() <= q.best()
	}
	for i, l := range p.Lines {
		if l.Grade.rank() > q.Lines[i].Grade.rank() {
			return false
		}
	}
	return true
}

func (p Path) betterGrade(q Path) bool {
	if !p.sameRepairs(q) {
		return false
	}
	for i, l := range p.Lines {
		if l.Grade.rank() < q.Lines[i].Grade.rank() {
			return true
		}
	}
	return false
}

// worst is the rank of the poorest part; -1 when no part is needed.
func (p Path) worst() int {
	rank := -1
	for _, l := range p.Lines {
		rank = max(rank, l.Grade.rank())
	}
	return rank
}

func (p Path) best() int {
	if len(p.Lines) == 0 {
		return -1
	}
	rank := len(Grades())
	for _, l := range p.Lines {
		rank = min(rank, l.Grade.rank())
	}
	return rank
}

// allReturn says that no part has to be ordered that can't go back.
func (p Path) allReturn() bool {
	return !slices.ContainsFunc(p.Lines, func(l Line) bool { return !l.InHand && !l.Returns })
}

// because says in words what the better path does better.
func because(better, beaten Path) string {
	less := ""
	switch {
	case better.Total.LessThan(beaten.Total):
		less = fmt.Sprintf("costs %s less", better.Money(beaten.Total.Sub(better.Total)))
	case better.Minutes < beaten.Minutes:
		less = fmt.Sprintf("costs the same and takes %d minutes less", beaten.Minutes-better.Minutes)
	case better.LeadDays < beaten.LeadDays:
		less = fmt.Sprintf("costs the same and comes %d days sooner", beaten.LeadDays-better.LeadDays)
	default:
		less = "costs the same"
	}
	if !better.sameRepairs(beaten) {
		return fmt.Sprintf("beaten by %q, which clears the same findings, %s and takes no longer", titles(better.Repairs), less)
	}
	for i, l := range beaten.Lines {
		b := better.Lines[i]
		switch {
		case b.Grade.rank() < l.Grade.rank():
			return fmt.Sprintf("beaten by the same repairs with the better grade of %s (%s for %s), which %s", l.Part.Title, b.Grade, l.Grade, less)
		case b.Each.LessThan(l.Each):
			return fmt.Sprintf("beaten by the same repairs with a cheaper %s of the same grade (%s for %s), which %s",
				l.Part.Title, better.Money(b.Each), better.Money(l.Each), less)
		}
	}
	return "beaten by the same repairs from another seller, which " + less
}

func titles(repairs []*tree.Repair) string { return Path{Repairs: repairs}.Title() }
