// Package record is what the logs of many jobs amount to: a card for each job,
// by which it is listed, looked for and counted, and the file in which jobs go
// from one record to another.
//
// Everything on a card follows from the job's log, so cards can always be made
// again. The package knows no trees: titles come from the caller.
//
// # The file of an export
//
// One JSON object in UTF-8, its keys in this order:
//
//	{
//	"format": "benchlead record",
//	"version": 1,
//	"jobs": [
//	{"job": 7, "events": [
//	{"seq":1,"at":1700000000000000,"kind":"intake","intake":{...}},
//	{"seq":2,"at":1700000060000000,"kind":"noted","noted":{"text":"smells of fuel"}}
//	]}
//	]
//	}
//
// job is the number in the record it comes from, each once. events is the whole
// log of the job from its first event to its last, as [benchlead/diag/job.Event]
// is encoded: at is in microseconds since 1970 UTC, a reading's value in base
// units (volts, amps, ohms), amounts of money are exact decimals in text. White
// space between the parts means nothing. Whoever reads it refuses a version that
// he doesn't know, and a field that he would lose.
package record
