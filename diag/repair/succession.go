package repair

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/source"
)

// succession follows numbers that newer ones replace, within one part and one
// supplier. next[i] is the line that replaces line i, or -1.
type succession struct {
	prices []Price
	next   []int
}

// numbered is a number as its supplier knows it, for one part.
type numbered struct{ part, supplier, number string }

func newSuccession(prices []Price) succession {
	first := map[numbered][]int{}
	for i, p := range prices {
		if p.Number != "" {
			k := numbered{p.Part, p.Supplier, p.Number}
			first[k] = append(first[k], i)
		}
	}
	s := succession{prices: prices, next: make([]int, len(prices))}
	for i, p := range prices {
		s.next[i] = -1
		if p.ReplacedBy != "" {
			s.next[i] = s.among(first[numbered{p.Part, p.Supplier, p.ReplacedBy}], p.Grade)
		}
	}
	return s
}

// among picks the line of the same grade, or the first.
func (s succession) among(lines []int, g Grade) int {
	for _, i := range lines {
		if s.prices[i].Grade == g {
			return i
		}
	}
	if len(lines) > 0 {
		return lines[0]
	}
	return -1
}

// end is the last line that line i leads to: itself when nothing replaces it,
// or when the numbers go round.
func (s succession) end(i int) int {
	at := i
	for range s.prices {
		if s.next[at] < 0 {
			return at
		}
		at = s.next[at]
	}
	return i
}

// Loops reports numbers that replace each other in a circle, with every place.
func Loops(prices []Price) source.Issues {
	var is source.Issues
	s := newSuccession(prices)
	seen := make([]int, len(prices)) // by which walk, from 1
	for i := range prices {
		at := i
		for at >= 0 && seen[at] == 0 {
			seen[at] = i + 1
			at = s.next[at]
		}
		if at >= 0 && seen[at] == i+1 {
			is = append(is, s.loop(at))
		}
	}
	return is
}

// loop is the circle that line i stands in, told from its first line.
func (s succession) loop(i int) source.Issue {
	round := []int{i}
	for at := s.next[i]; at != i; at = s.next[at] {
		round = append(round, at)
	}
	first := slices.Index(round, slices.Min(round))
	round = slices.Concat(round[first:], round[:first])
	var told []string
	for _, at := range round {
		told = append(told, fmt.Sprintf("%s (%s)", s.prices[at].Number, s.prices[at].Place))
	}
	start := s.prices[round[0]]
	return source.Issue{
		Code: CodeLoop, Place: start.Place,
		Message: fmt.Sprintf("%s: each number is replaced by the next, in a circle: %s", start.Part, strings.Join(told, ", ")),
		Hint:    `take "replaced by" away from the newest of them`,
	}
}

// Missing reports replacements that have no price of their own for the part.
// The old number is then offered, and said to be replaced. Nothing is wrong with
// the book.
func Missing(prices []Price) source.Issues {
	var is source.Issues
	s := newSuccession(prices)
	for i, p := range prices {
		if p.ReplacedBy == "" || s.next[i] >= 0 {
			continue
		}
		is = append(is, source.Issue{
			Code: CodeReplaced, Place: p.Place,
			Message: fmt.Sprintf("%s is replaced by %s, which has no price for %s", p.Number, p.ReplacedBy, p.Part),
			Hint:    "add a line for it; until then the old number is offered",
		})
	}
	return is
}
