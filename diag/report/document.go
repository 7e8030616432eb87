package report

import "benchlead/diag/job"

// Document is one job, ready to be written. Lists are never nil.
type Document struct {
	Job       int64       `json:"job"`
	Begun     string      `json:"begun"`          // day, UTC, as 2006-01-02
	Ended     string      `json:"ended"`          // day of closing; empty while open
	Last      string      `json:"last"`           // day of the latest entry
	NotToUse  []string    `json:"not_to_be_used"` // why nobody may use the machine; empty: nothing stands against it
	State     string      `json:"state"`          // one of the states below
	Next      string      `json:"next"`           // what has to be done next; empty: nothing
	Machine   string      `json:"machine"`        // in the shop's words
	Owner     string      `json:"owner"`
	Kind      string      `json:"kind"`   // what the machine usually is
	System    string      `json:"system"` // how it starts and charges
	Complaint string      `json:"complaint"`
	Words     string      `json:"words"` // the complaint as the owner put it
	History   []string    `json:"history"`
	Label     []LabelLine `json:"label"`
	Bench     string      `json:"bench"` // its temperature
	Meter     string      `json:"meter"`
	Corrected []string    `json:"corrected"` // what of these was put right since it was taken in

	Verdict   string       `json:"verdict"` // as it was before any repair
	Now       string       `json:"now"`     // after the repair; empty without one
	Phone     []string     `json:"phone"`   // two lines to read to the owner
	Dangers   []Caution    `json:"dangers"` // hazards that readings showed
	Findings  []Finding    `json:"findings"`
	Still     []FaultLine  `json:"still"` // found after the repair
	Cleared   []FaultLine  `json:"cleared"`
	Masked    []FaultLine  `json:"masked"`
	Untested  []FaultLine  `json:"untested"`
	Unclear   []Unclear    `json:"unclear"`
	Doubts    []Doubt      `json:"in_doubt"`   // findings that the suspects contradict
	Again     []Again      `json:"take_again"` // readings that fit nothing that is likely
	NotYet    []NotYet     `json:"not_yet"`    // parts not to buy yet
	Readings  []Reading    `json:"readings"`
	Proof     []Proof      `json:"proof"`   // before and after the repair
	Work      *Work        `json:"work"`    // the path chosen; nil before that
	Earlier   []Work       `json:"earlier"` // paths before it of which something was done
	Worked    []string     `json:"worked"`  // what was done to the machine to test it
	Asked     []Asked      `json:"asked"`   // the owner's answers, in order
	Served    []Service    `json:"services"`
	Binned    []Binned     `json:"to_the_bin"`
	Drawn     []Drawn      `json:"from_the_bin"`
	Warranty  []Warranty   `json:"warranty"`
	Wears     []Wears      `json:"wears"`
	MoneyNote string       `json:"money_note"` // what is said wherever prices are shown
	Offers    []Offer      `json:"offers"`
	Law       []Law        `json:"law"`
	Safety    []SafetyLine `json:"safety"`
	Outcome   string       `json:"outcome"` // empty while the job is open
	Why       string       `json:"why"`
	Cautions  []Caution    `json:"cautions"`
	Notes     []string     `json:"notes"`
	Defer     []string     `json:"defer"` // what this report does not replace

	step   string   // title of the test or the work that the walk waits for; empty when it waits for none
	likely []string // faults that fit the readings best, none of them shown
	lost   bool     // today's trees don't know the kind of machine
}

// LabelLine is one rated value. Default is set when the label didn't say and
// the usual value was taken.
type LabelLine struct {
	Field   string `json:"field"`
	Title   string `json:"title"`
	Value   string `json:"value"` // with its unit
	Default bool   `json:"default"`
}

// Finding is a fault with the evidence for it, in words.
type Finding struct {
	Fault    string   `json:"fault"`
	Title    string   `json:"title"`
	Says     string   `json:"says"` // what it means
	Evidence []string `json:"evidence"`
	Doubt    string   `json:"doubt"` // why it is in doubt, in words; empty when it is not

	plain []plainly // the evidence, for the owner
}

// FaultLine is a fault with why it is in its list.
type FaultLine struct {
	Fault   string `json:"fault"`
	Title   string `json:"title"`
	Because string `json:"because"`

	earlier bool // ruled out by what was tested before the repair
}

// Unclear is a test that decides nothing, and the one that would.
type Unclear struct {
	Test string `json:"test"`
	Why  string `json:"why"`
	Take string `json:"take"` // title of the test that would tell
}

// Reading is one test with every answer it got.
type Reading struct {
	Test     string  `json:"test"`
	Title    string  `json:"title"`
	Function string  `json:"function"` // empty for what was seen
	Red      string  `json:"red"`      // point, in words
	Black    string  `json:"black"`
	State    string  `json:"state"`
	With     string  `json:"with"`    // setups, in words
	Healthy  string  `json:"healthy"` // what a healthy machine reads
	Unit     string  `json:"unit"`
	Taken    []Taken `json:"taken"`

	low, high string // healthy limits, bare numbers; empty when open or unknown
}

// Taken is one answer to a test.
type Taken struct {
	After string `json:"after"` // what was done to the machine before it; empty: nothing yet
	Value string `json:"value"` // "0.42 ± 0.01 V", "OL", or what was seen
	// Others are earlier readings that disagree with it, the latest first.
	Others []string `json:"others,omitempty"`
	Band   string   `json:"band"`
	Called bool     `json:"called"` // 95 % or more in that band
	Answer string   `json:"answer"` // called, too close ...
	Says   string   `json:"says"`   // what the band means

	seen                bool
	number, uncertainty string // bare, in the test's unit; empty when there is none
	line                *bandLine
	plain               plainly
}

// Proof sets a check reading before the repair beside the one after it.
type Proof struct {
	Test    string `json:"test"`
	Title   string `json:"title"`
	Before  string `json:"before"` // empty: not taken
	After   string `json:"after"`
	Healthy string `json:"healthy"`

	was, is plainly
}

// Work is the repair path that the shop took.
type Work struct {
	Path    string       `json:"path"`
	Repairs []RepairLine `json:"repairs"`
	Grades  []string     `json:"grades"` // part and grade, in words
	Quote   job.Quote    `json:"quote"`
	Parts   []PartLine   `json:"parts"`
	// Unpriced are parts without a price, in words: Quote leaves them out.
	Unpriced []string  `json:"unpriced,omitempty"`
	Shop     []Setting `json:"shop"` // by name
	Aim      string    `json:"aim"`  // what the list of paths was ranked by
	Law      []Law     `json:"law"`
	Above    bool      `json:"above"` // more than the owner approved, with the paths before it
}

// RepairLine is one repair of the path.
type RepairLine struct {
	Repair   string   `json:"repair"`
	Title    string   `json:"title"`
	Minutes  int      `json:"minutes"`
	Done     bool     `json:"done"`
	Off      []string `json:"off"`
	Kept     []string `json:"kept"`
	Scrap    []string `json:"scrap"`     // what is thrown away
	New      []string `json:"new"`       // fasteners that have to be new
	Again    []string `json:"again"`     // fasteners that are used again
	Lines    []string `json:"checklist"` // of its checklist, what is ticked
	Converts bool     `json:"converts"`  // to another way of starting

	clears []string // faults
}

// Offer is a path that could be taken.
type Offer struct {
	Title   string   `json:"title"`
	Total   string   `json:"total"` // with currency; empty when not priced
	Minutes int      `json:"minutes"`
	Days    int      `json:"days"` // until the parts are there
	Notes   []string `json:"notes"`

	taxed bool   // tax is within Total
	lacks string // of which parts there is no price; empty when it is priced
}

// Law is a rule that the chosen repair must meet, one of its ways at least.
type Law struct {
	Cite string   `json:"cite"`
	Says string   `json:"says"`
	Ways []string `json:"ways"`
	Met  string   `json:"met"` // the way that was confirmed; empty: not confirmed
}

// SafetyLine is one safety function at hand-back.
type SafetyLine struct {
	Test   string `json:"test"`
	Title  string `json:"title"`
	Result string `json:"result"`
	State  string `json:"state"` // SafetyProved, SafetyFailed, SafetyOpen or SafetyAbsent

	plain plainly
}

// The states of a safety function.
const (
	SafetyProved = "proved"
	SafetyFailed = "FAILED"
	SafetyOpen   = "not tested"
	SafetyAbsent = "not applicable" // the machine has no such thing
)

// Caution is a hazard with what to do about it.
type Caution struct {
	Title string `json:"title"`
	Tell  string `json:"tell"`

	unsure bool // only readings in dispute show it
}
