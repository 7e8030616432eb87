package shop

import (
	"strings"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// The codes of what Read reports, beside those of packages shape and money.
const (
	CodeTaxTwice source.Code = "taxed-both-ways"
	CodeTwice    source.Code = "word-twice"
	CodeMeter    source.Code = "unknown-meter"
)

// rated says whether there is a rate for each sort of line.
func (s *shopShape) rated() bool {
	return s.TaxParts.Given() || s.TaxLabour.Given() || s.TaxOther.Given()
}

// taxed looks that the tax is told in one way, and whole: a rate that is missing
// is a mistake that the shop would pay for.
func taxed(r *money.Reader, s *shopShape) {
	simple := lacking(map[string]shape.Word{"tax percent": s.TaxPercent, "tax on": s.TaxOn}, "tax percent", "tax on")
	each := lacking(map[string]shape.Word{"tax parts percent": s.TaxParts, "tax labour percent": s.TaxLabour, "tax other percent": s.TaxOther},
		"tax parts percent", "tax labour percent", "tax other percent")
	switch {
	case s.rated() && len(simple) < 2:
		place := s.TaxPercent.Place
		if !s.TaxPercent.Given() {
			place = s.TaxOn.Place
		}
		r.Report(CodeTaxTwice, place, "the tax is told in two ways", `keep "tax percent" with "tax on", or the rates for parts, labour and other`)
	case s.rated() && len(each) > 0:
		r.Report(shape.CodeMissing, s.Place, "the shop lacks "+shape.Quoted(each), "add "+each[0]+": 0 where there is none")
	case !s.rated() && len(simple) > 0 && !reported(r, simple):
		r.Report(shape.CodeMissing, s.Place, "the shop lacks "+shape.Quoted(simple), "add "+simple[0]+": ...; what is taxed, and at what rate, is local law")
	}
}

// lacking are the names, in their order, of words that are not given.
func lacking(words map[string]shape.Word, order ...string) []string {
	var out []string
	for _, name := range order {
		if !words[name].Given() {
			out = append(out, name)
		}
	}
	return out
}

// reported says whether what is lacking was reported already: its key is written,
// and wrong.
func reported(r *money.Reader, keys []string) bool {
	for _, is := range r.Issues {
		for _, key := range keys {
			if strings.Contains(is.Message+is.Hint, `"`+key+`"`) {
				return true
			}
		}
	}
	return false
}
