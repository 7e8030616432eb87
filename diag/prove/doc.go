// Package prove takes simulated machines with a known fault through a fault tree
// and compares what the tree says with what was put in.
//
// A unit is one tree with one set of faults and a number of machines. Each
// machine must come in with a complaint that leads to the tree, and be one that
// nobody would complain of without its faults, or it is put aside; then the tree is walked by itself, as a tech would with a meter. What
// comes of a machine is one of these, the worst first:
//
//   - wrong: a part is condemned that is whole, or a faulty one is cleared
//   - missed: the fault is left untested and nothing says why
//   - masked: it is left untested, and said to be, behind another real fault
//   - close: it is left untested because a reading was too close to a limit
//   - group: what is found can't be told from it by any test the tree may ask
//   - found: it is found, or the walk's own work has put it right
//
// The package starts no goroutines: a Plan lists the units, a Tech runs one at a
// time, and Sum puts the results together in the order of the units.
package prove
