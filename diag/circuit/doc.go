// Package circuit solves the electrical circuit of a machine: parts between
// nodes, by modified nodal analysis with Newton's method, with meters as part
// of the circuit. Relays, fuses and protective electronics are iterated until
// they rest or repeat; a relay that pulls in and drops out for ever is chatter,
// and all its phases are kept.
//
// Everything is a function of the parts in the order in which they are given:
// no maps are ranged over, nothing is random, nothing is rounded for display.
// The package imports nothing of ours.
//
// Sources: Ho, Ruehli and Brennan, The modified nodal approach to network
// analysis, IEEE Trans. Circuits and Systems 22 (1975); Nagel, SPICE2, ERL-M520
// (1975) for junction limiting and the conductance from every node to ground.
package circuit
