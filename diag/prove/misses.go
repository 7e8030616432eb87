package prove

import (
	"cmp"
	"slices"
)

// kindOfMiss is one way of going wrong, with the shortest walk that shows it.
type kindOfMiss struct {
	class Class
	sign  string
	count int
	draw  Draw
	moves int
}

// note keeps the shortest walk of each way of going wrong.
func (b *batch) note(class Class, o *outcome, d Draw) {
	sign := o.sign(class)
	k := b.kinds[sign]
	if k == nil {
		k = &kindOfMiss{class: class, sign: sign, draw: d, moves: o.run.moves}
		b.kinds[sign] = k
	}
	k.count++
	if o.run.moves < k.moves {
		k.draw, k.moves = d, o.run.moves
	}
}

// How many ways of going wrong are shown for a unit; pairs are many.
const (
	shown     = 3
	shownPair = 1
)

// show walks the machines that are to be shown again, with notes taken.
func (b *batch) show() {
	var all []*kindOfMiss
	often := float64(b.result.Counts.Close) > mostClose*float64(b.result.Counts.Draws)
	for _, k := range b.kinds {
		if k.class != Close || often {
			all = append(all, k)
		}
	}
	slices.SortFunc(all, func(x, y *kindOfMiss) int {
		return cmp.Or(cmp.Compare(rank(x.class), rank(y.class)), cmp.Compare(y.count, x.count), cmp.Compare(x.sign, y.sign))
	})
	most := shown
	if b.unit.Kind == Pair || b.unit.Kind == Bypass {
		most = shownPair
	}
	for _, k := range all[:min(most, len(all))] {
		trace, err := b.trace(k.draw, k.class)
		if err == nil {
			b.result.Misses = append(b.result.Misses, Miss{Class: k.class, Count: k.count, Trace: trace})
		}
	}
}

// rank puts what is wrong before what is missed.
func rank(c Class) int {
	return slices.Index([]Class{Wrong, Missed, Masked, Close}, c)
}
