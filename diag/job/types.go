// Package job is the log of one machine on the bench: events in, facts out.
//
// The log holds facts only, never a position: where the walk stands is
// computed by package walk. An event is durable before the next answer is
// accepted; undoing is an event too. Order is by sequence number, never by
// clock. The package imports only measure.
package job

import "benchlead/diag/measure"

// Kind names an event.
type Kind string

// The kinds of event. Their text is in the record for ever.
const (
	KindIntake Kind = "intake" // the machine, its complaint, label, bench, meter
	// KindCorrected is what is known of the machine, put right: a label that was read late,
	// or was read wrongly.
	KindCorrected Kind = "corrected"
	KindOpened    Kind = "opened" // the job was opened again: make-safe must be confirmed anew
	KindSafe      Kind = "safe"   // make-safe conditions confirmed
	KindHeeded    Kind = "heeded" // a danger was shown and acknowledged
	KindRead      Kind = "read"   // a meter reading for a test
	KindSeen      Kind = "seen"   // a choice for an observation
	KindDone      Kind = "done"   // a piece of work that changes the machine was done
	KindCant      Kind = "cant"   // a test or piece of work that can't or won't be done
	KindNoted     Kind = "noted"  // free text
	KindTrees     Kind = "trees"  // the trees' digest changed while the job was open
	KindChosen    Kind = "chosen" // a repair path was chosen
	KindAgreed    Kind = "agreed" // a term of a repair was confirmed before the work
	KindTicked    Kind = "ticked" // one repair of the chosen path was done
	KindLined     Kind = "lined"  // one line of a repair's checklist was done
	KindAsked     Kind = "asked"  // the owner was told the price, and answered
	KindServed    Kind = "served" // a usual service before hand-back was done, or left out
	KindBinned    Kind = "binned" // a piece off this machine went into the parts bin
	KindDrawn     Kind = "drawn"  // a piece came out of the parts bin for this machine
	KindUndone    Kind = "undone" // an earlier event is taken back
	KindClosed    Kind = "closed" // the job ended; verdict and quote frozen
)

// Event is one fact. Exactly the field that its Kind names is set. Seq is given
// by the store (1, 2, 3 ... within a job); At is microseconds since 1970 UTC.
type Event struct {
	Seq  int64 `json:"seq"`
	At   int64 `json:"at"`
	Kind Kind  `json:"kind"`
	// Shown is the findings as they were shown after this event, when the
	// event changed them; so that what other trees would say can be compared.
	Shown *[]string `json:"shown,omitempty"`

	Intake *Intake `json:"intake,omitempty"`
	// Corrected is the intake as it should have been, whole. It stays of its system, and
	// names the trees of the first one.
	Corrected *Intake `json:"corrected,omitempty"`
	Safe      *Safe   `json:"safe,omitempty"`
	Heeded    *Heeded `json:"heeded,omitempty"`
	Read      *Read   `json:"read,omitempty"`
	Seen      *Seen   `json:"seen,omitempty"`
	Done      *Done   `json:"done,omitempty"`
	Cant      *Cant   `json:"cant,omitempty"`
	Noted     *Noted  `json:"noted,omitempty"`
	Trees     *Trees  `json:"trees,omitempty"`
	Chosen    *Chosen `json:"chosen,omitempty"`
	Agreed    *Agreed `json:"agreed,omitempty"`
	Ticked    *Ticked `json:"ticked,omitempty"`
	Lined     *Lined  `json:"lined,omitempty"`
	Asked     *Asked  `json:"asked,omitempty"`
	Served    *Served `json:"served,omitempty"`
	Binned    *Binned `json:"binned,omitempty"`
	Drawn     *Drawn  `json:"drawn,omitempty"`
	Undone    *Undone `json:"undone,omitempty"`
	Closed    *Closed `json:"closed,omitempty"`
}

// Intake is what is known of the machine before the first reading.
type Intake struct {
	System    string             `json:"system"`
	Complaint string             `json:"complaint"`            // a complaint id of the system
	Machine   string             `json:"machine,omitempty"`    // in the shop's words
	Owner     string             `json:"owner,omitempty"`      // in the shop's words
	Words     string             `json:"words,omitempty"`      // the complaint as the owner put it
	Label     map[string]float64 `json:"label,omitempty"`      // numbers copied from stickers, base units
	LabelText map[string]string  `json:"label_text,omitempty"` // chosen words (chemistry)
	Celsius   float64            `json:"celsius"`              // of the bench
	Meter     measure.Meter      `json:"meter"`                // accuracy as it was then
	History   []string           `json:"history,omitempty"`    // what changed just before
	Worth     string             `json:"worth,omitempty"`      // value of the sound machine, exact decimal
	Digest    string             `json:"digest"`               // of the trees used
}

// Safe is a set of make-safe conditions the tech confirmed: item to setting.
type Safe struct {
	Confirmed map[string]string `json:"confirmed"`
}

// Heeded is a danger that was shown and acknowledged.
type Heeded struct {
	Caution string `json:"caution"`
	Test    string `json:"test"` // the test whose band or choice raised it
}

// Read is a reading for a test.
type Read struct {
	Test    string          `json:"test"`
	Reading measure.Reading `json:"reading"`
	// Sure is set when the value was outside what the system can produce, or below
	// nothing, and the tech, asked, stood by it.
	Sure bool `json:"sure,omitempty"`
}

// Seen is the choice made for an observation.
type Seen struct {
	Test   string `json:"test"`
	Choice string `json:"choice"`
	Text   string `json:"text,omitempty"` // as typed
}

// Done is a piece of work that changed the machine. Stales are the tests that
// it made unknown again, as the trees said at that time.
type Done struct {
	Work   string   `json:"work"`
	Stales []string `json:"stales,omitempty"`
}

// Cant is a test or piece of work that was passed over. Exactly one is set.
type Cant struct {
	Test string `json:"test,omitempty"`
	Work string `json:"work,omitempty"`
	Why  string `json:"why,omitempty"` // "can't reach", "skipped", or the tech's words
	// Unmade are the make-safe items that were asked for before it and not confirmed.
	Unmade []string `json:"unmade,omitempty"`
}

// Noted is free text.
type Noted struct {
	Text string `json:"text"`
}

// Trees records that the job went on with other trees.
type Trees struct {
	Digest  string   `json:"digest"`
	Changed []string `json:"changed,omitempty"` // what changed in the findings, in words
}

// PathPartOut is the Path of a Chosen that takes the machine apart for good.
const PathPartOut = "part out"

// Chosen is the repair path the shop took, with the quote frozen.
type Chosen struct {
	Path    string   `json:"path"`    // "repair", "sell as is", "part out"
	Repairs []string `json:"repairs"` // repair ids in order of work
	Grades  []string `json:"grades,omitempty"`
	Quote   Quote    `json:"quote"`
	// Unpriced are the parts that no price was on file for: Quote leaves them out.
	Unpriced []string `json:"unpriced,omitempty"`
	// Lines are the parts as they were offered, Shop the settings that the quote was
	// worked out with: name to value, as the settings file writes them. Aim is what
	// the list was ranked by. Empty in records of before.
	Lines []QuoteLine       `json:"lines,omitempty"`
	Shop  map[string]string `json:"shop,omitempty"`
	Aim   string            `json:"aim,omitempty"`
}

// QuoteLine is one part of a quote; Each is an exact decimal in text.
type QuoteLine struct {
	Part   string `json:"part"`
	Grade  string `json:"grade"`
	Qty    int    `json:"qty"`
	Each   string `json:"each"`
	Note   string `json:"note,omitempty"`  // seller and number
	Piece  string `json:"piece,omitempty"` // of the parts bin
	InHand bool   `json:"in_hand,omitempty"`
}

// Quote is money as it was offered, exact decimals in text.
type Quote struct {
	Currency string `json:"currency"`
	Parts    string `json:"parts"`
	Labour   string `json:"labour"`
	Other    string `json:"other,omitempty"` // consumables, freight, disposal, fee
	Tax      string `json:"tax"`
	Total    string `json:"total"`
	Minutes  int    `json:"minutes"`
	Deposit  string `json:"deposit,omitempty"` // core deposits, not in Total; back with the old parts
}

// Agreed is a term of a repair that was confirmed before the work: what must be
// true first, or the way in which a rule is met.
type Agreed struct {
	Repair string `json:"repair"`
	Term   string `json:"term"`
	Way    string `json:"way,omitempty"` // of a rule that can be met in several
}

// Ticked is one repair of the chosen path, done. Stales as in Done.
type Ticked struct {
	Repair string   `json:"repair"`
	Stales []string `json:"stales,omitempty"`
}

// Lined is one line of a repair's checklist, done. Line is its text as it was shown.
type Lined struct {
	Repair string `json:"repair"`
	Line   string `json:"line"`
}

// Asked is what the owner said to an estimate: approved up to Ceiling, or not.
// Total and Ceiling are exact decimals in text, in Currency.
type Asked struct {
	Approved bool     `json:"approved"`
	Who      string   `json:"who"`           // who answered, in the shop's words
	How      string   `json:"how,omitempty"` // by telephone, at the counter ...
	Total    string   `json:"total"`         // of the estimate, as it was told
	Ceiling  string   `json:"ceiling,omitempty"`
	Currency string   `json:"currency"`
	Declined []string `json:"declined,omitempty"` // work that was offered and not wanted
}

// Served is one usual service, done or left out.
type Served struct {
	Service string `json:"service"`
	Left    bool   `json:"left,omitempty"` // left out
	With    bool   `json:"with,omitempty"` // by the same line as the event before it, and taken back with that
}

// Binned is a piece that went into the parts bin. Its name in the bin is the job's
// number and the event's: PieceOf.
type Binned struct {
	Part     string   `json:"part"`
	Words    string   `json:"words,omitempty"`
	Shown    []string `json:"shown"` // what was read on it, in words
	Asking   string   `json:"asking"`
	Currency string   `json:"currency"`
	Place    string   `json:"place,omitempty"`
}

// Drawn is a piece that came out of the parts bin for this machine.
type Drawn struct {
	Piece string `json:"piece"`
	Part  string `json:"part"`
}

// Undone takes an earlier event of the same job back.
type Undone struct {
	Seq int64 `json:"of"`
}

// Outcome is how a job ended.
type Outcome string

// The ways a job ends.
const (
	Proved     Outcome = "repaired and proved"
	NotProved  Outcome = "repaired, not proved"
	SoldAsIs   Outcome = "sold as is"
	PartedOut  Outcome = "parted out"
	Unrepaired Outcome = "returned unrepaired"
	Unsafe     Outcome = "unsafe: not operable, owner informed"
)

// Closed ends a job and freezes what was concluded.
type Closed struct {
	Outcome  Outcome  `json:"outcome"`
	Why      string   `json:"why,omitempty"`
	Verdict  string   `json:"verdict"`
	Found    []string `json:"found,omitempty"`
	Cleared  []string `json:"cleared,omitempty"`
	Masked   []string `json:"masked,omitempty"`
	Untested []string `json:"untested,omitempty"`
}
