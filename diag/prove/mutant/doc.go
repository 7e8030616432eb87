// Package mutant breaks a library of trees in small ways, each as an author could
// write it: a cut that is too low or too high, two answers of a step that lead
// where the other should, a step that is left out. What `check` refuses and the
// proof catches of these is how much the two can be relied on.
//
// A mutant is an edit of a file's text, so it goes through all that a file goes
// through that was edited by hand. Lines keep their numbers.
package mutant
