// Package suspect weighs what may be wrong with a machine, from answers in any
// order. For every fault, and for faults that come together, it keeps a cloud of
// simulated machines that come in with the same complaint. Each answer is held
// against what each machine would show: a machine that fits keeps its weight, one
// that does not loses it, but never all of it, because a hand may have slipped. A
// fault is as likely as the share of weight that its machines keep.
//
// One machine foretells all answers together, so readings that are tied to one
// another (the volts of a loop add up) are not counted twice. The method, and how
// it does beside independent odds: de Kleer and Williams, Diagnosing multiple
// faults, Artificial Intelligence 32 (1987) 97-130; Heckerman, Breese and
// Rommelse, Decision-theoretic troubleshooting, CACM 38(3) (1995) 49-57.
//
// Nothing here finds or clears a fault: that is for the trees.
package suspect
