package repair

import "slices"

// Grade is where a part comes from.
type Grade string

// The grades of part, best first.
const (
	Original    Grade = "original"
	Aftermarket Grade = "aftermarket"
	Bin         Grade = "bin" // a tested used part
)

// Grades lists them, best first.
func Grades() []Grade { return []Grade{Original, Aftermarket, Bin} }

// rank is 0 for the best grade; one that isn't known counts as the worst.
func (g Grade) rank() int {
	if i := slices.Index(Grades(), g); i >= 0 {
		return i
	}
	return len(Grades())
}
