package electric

import (
	"math"
	"sort"
)

// row is one line of a table: at X the value is Y.
type row struct{ x, y float64 }

// table is a function known at some points, with x rising.
type table []row

// at reads the table on straight lines between its points and holds the end
// values outside, because a limit must never run away beyond what was
// published. NaN stays NaN.
func (t table) at(x float64) float64 {
	if math.IsNaN(x) {
		return x
	}
	i := sort.Search(len(t), func(i int) bool { return t[i].x >= x })
	switch {
	case i == 0:
		return t[0].y
	case i == len(t):
		return t[len(t)-1].y
	case t[i].x == x: // printed values come out to the last bit
		return t[i].y
	}
	a, b := t[i-1], t[i]
	return a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)
}

// turned swaps the columns. The second column must rise or fall throughout.
func (t table) turned() table {
	out := make(table, len(t))
	for i, r := range t {
		out[i] = row{r.y, r.x}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].x < out[j].x })
	return out
}

// fahrenheit converts a bench temperature for the tables printed in °F.
func fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

// celsiusOf converts a printed °F.
func celsiusOf(fahrenheit float64) float64 { return (fahrenheit - 32) * 5 / 9 }

// positive reports whether every value is a number above zero.
func positive(values ...float64) bool {
	for _, v := range values {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// share holds a state of charge between empty and full.
func share(soc float64) float64 { return math.Max(0, math.Min(1, soc)) }
