package screen

import (
	"fmt"

	"benchlead/ui"
)

// mostPrices is how many prices can be scrolled through; more words find the others.
const mostPrices = 500

// prices is the price book with a line that is searched with every key. It lies over
// the list of jobs.
type prices struct {
	find   func(words string, most int) ([]ui.PriceRow, int)
	note   string // whose prices they are
	search input
	at     int  // the row under >
	full   bool // that row is shown with all that is known of it

	words string // what was found last, so that it is looked for once
	rows  []ui.PriceRow
	all   int
}

func newPrices(b ui.Bench) *over {
	p := &prices{find: b.FindPrices, note: b.PriceNote}
	p.look()
	return &over{title: "Prices", prices: p}
}

// look finds what the words are in.
func (p *prices) look() {
	if words := p.search.text(); p.rows == nil || words != p.words {
		p.words, p.at = words, 0
		p.rows, p.all = p.find(words, mostPrices)
	}
}

// pricesKeys are the keys of the price book. Letters search it.
func pricesKeys() []binding {
	return []binding{
		{keys: []string{"enter"}, short: "all of it", says: "all that is known of the price under >", act: action{deed: unfold}},
		{keys: []string{"up"}, short: "above", says: "the price above", act: action{deed: scroll, by: -1}},
		{keys: []string{"down"}, short: "below", says: "the price below", act: action{deed: scroll, by: 1}},
		{keys: []string{"pgup"}, says: "a page up", act: action{deed: scroll, by: -1, page: true}},
		{keys: []string{"pgdown"}, says: "a page down", act: action{deed: scroll, by: 1, page: true}},
		{keys: []string{"esc"}, short: "back", says: "empty the line; then back to the jobs", act: action{deed: shut}},
		leaveKey,
	}
}

func (p *prices) press(k key) action {
	b := find(pricesKeys(), k.name)
	back := k.name == "up" && p.search.lost != ""
	p.search.begin(k)
	switch {
	case k.name == "esc" && p.full:
		p.full = false
	case k.name == "esc" && !p.search.empty():
		p.search.clear()
	case back:
		p.search.press(k)
	case k.typed():
		p.full = false
		p.search.press(k)
	case b != nil:
		return b.act
	default:
		p.search.press(k)
	}
	p.look()
	return action{}
}

// move moves the cursor. A price that is shown in full gives way to its neighbour.
func (p *prices) move(by int) { p.at = max(min(p.at+by, len(p.rows)-1), 0) }

func (p *prices) unfold() { p.full = !p.full && len(p.rows) > 0 }

// title says how many prices there are.
func (p *prices) title() string {
	switch {
	case p.search.empty() && p.all == 1:
		return "Prices: 1"
	case p.search.empty():
		return fmt.Sprintf("Prices: %d", p.all)
	}
	return fmt.Sprintf("Prices with these words: %d", p.all)
}

func (p *prices) body(sty styles, width, height int) []string {
	switch {
	case len(p.rows) == 0 && p.search.empty():
		return wrap("The book has no prices. \"benchlead prices import\" takes in a table.", width)
	case len(p.rows) == 0:
		return wrap("No price has these words. Esc shows all of them.", width)
	case p.full:
		r := p.rows[p.at]
		out := append(hang("  ", r.Title+" ("+r.Part+"), "+r.Grade+", "+r.Price, width), "")
		for _, l := range r.Full() {
			out = append(out, hang("  ", l, width)...)
		}
		return out
	}
	each := priceHeight(width)
	// No more than can be seen is drawn: every key draws it anew.
	from, to := max(p.at-height, 0), min(p.at+height, len(p.rows))
	var rows []string
	for i, r := range p.rows[from:to] {
		mark, look := "  ", sty.plain
		if from+i == p.at {
			mark, look = "> ", sty.cursor
		}
		rows = append(rows, paint(look, priceRows(mark, r, width, each))...)
	}
	if more := p.all - len(p.rows); more > 0 && to == len(p.rows) {
		rows = append(rows, fmt.Sprintf("And %d more: type more words.", more))
	}
	return around(rows, (p.at-from)*each, each, height)
}

// priceHeight is how many lines a price takes.
func priceHeight(width int) int {
	if width < 100 {
		return 2
	}
	return 1
}

// priceRows is a price in one or two lines.
func priceRows(mark string, r ui.PriceRow, width, each int) []string {
	if each == 2 {
		return []string{
			ends(mark+r.Part+"  "+r.Grade, r.Price, width),
			ends("    "+r.From, r.Where, width),
		}
	}
	head := mark + pad(short(r.Part, 24), 24) + "  " + pad(r.Grade, 11) + "  " + fmt.Sprintf("%12s", r.Price) + "  " + pad(r.Where, 12)
	return []string{head + "  " + short(r.From, width-len(head)-2)}
}
