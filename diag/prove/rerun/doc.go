// Package rerun compares a changed library with the one it was made from, on the
// same simulated machines: does the proof come out worse?
//
// A Bench walks the machines once with the library as it is, and remembers what
// came of each, which steps it passed and which tests it answered. A change is
// then tried only on machines that come near it, a few first, and no further than
// to the first figure that is worse. What a machine answers doesn't depend on
// cuts and routes; so it is worked out once, whatever is tried on it.
//
// The package starts no goroutines; several goroutines need a Bench each.
package rerun
