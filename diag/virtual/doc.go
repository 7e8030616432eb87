// Package virtual is a simulated machine: the circuit of a system with its parts
// drawn within their tolerances, faults put in, and an answer for any test. It
// proves the trees and checks what they call healthy; it never supplies a limit.
//
// A Maker holds what all machines of a system share, a Machine is one of them.
// Every random number is a function of the seed, the machine's number and the
// name of the thing that is drawn. So a part that a fault doesn't touch has the
// same value in the machine of that number whatever fault it has, and the order
// in which a file lists things doesn't matter.
//
// Parts that are joined electrically are solved together, as an island. Islands
// are solved when a test first asks, once for each set of exact values: states
// in which nothing changes on an island share its solution.
//
// A Maker and its Machines are for one goroutine; several goroutines need a
// Maker each, and get the same machines.
package virtual
