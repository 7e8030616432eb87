// Package counsel is what the suspects say of a job: which faults are likely and why,
// what would tell most, which readings to take again, which findings are in doubt, and
// which parts not to buy yet. It is a pure function of the job's facts and of the
// clouds; it never alters events, findings or the position of the walk.
package counsel
