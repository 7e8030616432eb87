// Package report turns a job into a document that the owner can read and the
// shop can keep, and writes it as plain text, one HTML page, JSON, or the
// readings as CSV. It also holds the words of a verdict that every face shares
// ([Sentence], [Untested]) and the object that judging a case prints ([Judged]).
//
// It is pure: [Build] works from the library, the events and the offers, and
// the writers work from the [Document] alone. Text that came from outside is
// made harmless when the document is built, and again by each writer for where
// it goes: terminals, HTML, spreadsheets.
package report
