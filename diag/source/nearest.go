package source

import "strings"

// longestName bounds the work of Nearest; no id is longer.
const longestName = 80

// Nearest is the known name that was probably meant, or "" if none is near: at
// most one slip (a letter wrong, missing, too many, or two swapped) for every
// three letters. A known name that only has a prefix more ("label.cells" for
// "cells") is near too. Ties go to the first in alphabetical order.
func Nearest(name string, known []string) string {
	return NearestWithin(allowed(name), name, known)
}

// NearestWithin is Nearest with at most so many slips.
func NearestWithin(most int, name string, known []string) string {
	if name == "" || len(name) > longestName {
		return ""
	}
	best, bestSlips := "", most+1
	for _, k := range known {
		if len(k) > longestName {
			continue
		}
		slips := slipsBetween(fold(name), fold(k))
		if strings.HasSuffix(k, "."+name) {
			slips = 0
		}
		if slips < bestSlips || slips == bestSlips && best != "" && k < best {
			best, bestSlips = k, slips
		}
	}
	return best
}

// allowed is how many slips a name of that length may hold.
func allowed(name string) int { return (len([]rune(name)) + 1) / 3 }

// fold makes names alike that differ only in case or in the joining mark.
func fold(name string) []rune {
	return []rune(strings.ReplaceAll(strings.ToLower(name), "-", "_"))
}

// slipsBetween is the optimal string alignment distance: insertions, deletions,
// substitutions and swaps of neighbours.
func slipsBetween(a, b []rune) int {
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
