// Package decide proves the suspects: it lets what they offer next find out what
// is wrong with simulated machines, and compares what is then named with what was
// put in. The machines are drawn from another seed than the clouds.
//
// Like the trees, the suspects are asked by a hand with a pocket meter that slips
// now and then. What is named must be all that is wrong: a fault that is left out
// brings the machine back.
package decide
