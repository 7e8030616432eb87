// Package report turns a job into a document, and writes it for whom it is meant:
// the bench copy with everything as text, one HTML page, JSON, or the readings as
// CSV; the owner's report in plain language ([Owner], [OwnerText]); a text for a
// telephone ([Message]); the tag that hangs on the machine ([Tag], [TagText]). A
// machine that nobody may use leads each of them with that. The package also holds
// the words of a verdict that every face shares ([Sentence], [Untested]) and the
// object that judging a case prints ([Judged]).
//
// It is pure: [Build] works from the library, the events and the offers, and
// the writers work from the [Document] alone. Text that came from outside is
// made harmless when the document is built, and again by each writer for where
// it goes: terminals, HTML, spreadsheets.
package report
