package report

// Asked is what the owner said to an estimate.
type Asked struct {
	On       string   `json:"on"` // day, UTC, as 2006-01-02
	Approved bool     `json:"approved"`
	Who      string   `json:"who"`
	How      string   `json:"how"`     // by telephone, at the counter ...
	Total    string   `json:"total"`   // as it was told, with its currency
	Ceiling  string   `json:"ceiling"` // approved up to this, with its currency; empty without one
	Declined []string `json:"declined"`
}

// PartLine is one part of a quote, as it was frozen. Qty 0 says that the record
// knows the grade and nothing else.
type PartLine struct {
	Part   string `json:"part"`
	Title  string `json:"title"`
	Grade  string `json:"grade"`
	Qty    int    `json:"qty"`
	Each   string `json:"each"` // exact decimal, without the currency
	Note   string `json:"note"`
	Piece  string `json:"piece"` // of the parts bin
	InHand bool   `json:"in_hand"`

	fitted bool // a repair that takes it is done
}

// Setting is one of the shop's settings, as the quote was worked out with it.
type Setting struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Warranty is how many days the shop answers for a part that was fitted.
type Warranty struct {
	Part  string `json:"part"`
	Title string `json:"title"`
	Grade string `json:"grade"`
	Days  int    `json:"days"` // 0: none
}

// Service is one usual piece of work before hand-back.
type Service struct {
	Service string `json:"service"`
	Title   string `json:"title"`
	Left    bool   `json:"left"` // left out
}

// Binned is a piece off this machine that the shop keeps.
type Binned struct {
	Piece  string   `json:"piece"` // its name in the bin
	Part   string   `json:"part"`
	Title  string   `json:"title"`
	Words  string   `json:"words"`
	Shown  []string `json:"shown"` // what was read on it
	Asking string   `json:"asking"`
	Place  string   `json:"place"`
}

// Drawn is a used piece that came out of the parts bin for this machine.
type Drawn struct {
	Piece string `json:"piece"`
	Part  string `json:"part"`
	Title string `json:"title"`
}

// Wears is a part that was fitted and does not last for ever.
type Wears struct {
	Part  string `json:"part"`
	Title string `json:"title"`
	Says  string `json:"says"` // how long it usually lasts, and what that rests on
}
