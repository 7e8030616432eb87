package shop

import (
	_ "embed" // the defaults
	"fmt"
	"reflect"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// Defaults is a file of settings with every default and what it means. It is
// where the defaults are written: nothing else repeats them.
//
//go:embed defaults.yaml
var Defaults string

// The bounds of settings. Beyond them a slip is far likelier.
const (
	mostSeasons = 20
	mostDays    = 3650
	mostPercent = 1000
	mostMinutes = 10_000
)

// Sheet is a file of settings as it was read.
type Sheet struct {
	Settings
	Entries []Entry // every setting in use, in the order of the defaults
}

// Load reads a file of settings and reports every problem in it. With a problem
// there are no settings.
func Load(f source.File) (Settings, source.Issues) {
	s, issues := Read(f)
	return s.Settings, issues
}

// Read is Load that says of each setting where it comes from.
func Read(f source.File) (Sheet, source.Issues) {
	s, r, issues := read(&f)
	if len(issues) > 0 {
		return Sheet{}, issues.Sorted()
	}
	taxed(r, &s.Shop)
	s.fill()
	out := Sheet{settings(r, s), s.entries()}
	if len(r.Issues) > 0 {
		return Sheet{}, r.Issues.Sorted()
	}
	return out, nil
}

// Standard are the settings of a shop that gave none: they charge nothing.
func Standard() Sheet {
	var s fileShape
	s.fill()
	r := &money.Reader{Reader: form.Reader(&source.File{})}
	return Sheet{settings(r, s), s.entries()}
}

func read(f *source.File) (s fileShape, r *money.Reader, issues source.Issues) {
	top, issues := form.Parse(f)
	if len(issues) > 0 {
		return s, nil, issues
	}
	r = &money.Reader{Reader: form.Reader(f)}
	r.Read(top, &s, "the settings")
	return s, r, nil
}

// fill takes from the defaults what the file lacks. A shop with a rate for each
// sort of line has none for all.
func (s *fileShape) fill() {
	std, r, issues := read(&source.File{Name: "defaults.yaml", Text: Defaults})
	if len(issues) > 0 || len(r.Issues) > 0 {
		panic(fmt.Sprint("defaults.yaml is built wrongly: ", issues, r.Issues))
	}
	if s.Shop.rated() {
		std.Shop.TaxPercent, std.Shop.TaxOn = shape.Word{}, shape.Word{}
	}
	fill(reflect.ValueOf(s).Elem(), reflect.ValueOf(std))
}

func settings(r *money.Reader, s fileShape) Settings {
	c := s.Shop
	out := Settings{
		Currency: r.Currency(c.Currency), LabourRate: r.Amount(c.LabourRate), MinimumLabour: r.Amount(c.MinimumLabour),
		TaxPercent: r.Percent(c.TaxPercent, 100), TaxOn: Taxed(r.OneOf(c.TaxOn, "parts", "both", "none")),
		TaxPartsPercent: r.Percent(c.TaxParts, 100), TaxLabourPercent: r.Percent(c.TaxLabour, 100), TaxOtherPercent: r.Percent(c.TaxOther, 100),
		WarnAbove: r.Percent(c.WarnAbove, mostPercent), RoundTo: r.Step(c.RoundTo), Fee: r.Amount(c.Fee),
		FeeCredited: c.FeeCredited.Value, Consumables: r.Amount(c.Consumables),
		Seasons: r.Count(c.Seasons, mostSeasons), ConversionWorth: r.Percent(c.Conversion, mostPercent),
		StaleDays: r.Count(c.StaleDays, mostDays), ComebackDays: r.Count(c.ComebackDays, mostDays),
		Grades: map[string]GradeTerms{"original": s.Grades.Original.read(r), "aftermarket": s.Grades.Aftermarket.read(r), "bin": s.Grades.Bin.read(r)},
		Meters: once(r, s.Bench.Meters), Tools: once(r, s.Bench.Tools),
		Worth: map[string]decimal.Decimal{}, Leaving: s.Leaving.Read(r),
	}
	for _, pair := range s.Worth {
		out.Worth[pair.Key.Text] = r.Amount(pair.Value)
	}
	return out
}

func (s gradeShape) read(r *money.Reader) GradeTerms {
	return GradeTerms{Markup: r.Percent(s.Markup, mostPercent), WarrantyDays: r.Count(s.WarrantyDays, mostDays), FailPercent: r.Percent(s.FailPercent, 100)}
}

// Read is what the shape means.
func (s LeavingShape) Read(r *money.Reader) Leaving {
	return Leaving{
		AsIsPercent: r.Percent(s.AsIsPercent, 100), PartOutPercent: r.Percent(s.PartOutPercent, 100),
		PartOutMinutes: r.Count(s.PartOutMinutes, mostMinutes),
	}
}

// once reads a list of words, each of which may stand there once.
func once(r *money.Reader, words []shape.Word) []string {
	var out []string
	first := map[string]source.Place{}
	for _, w := range words {
		if had, twice := first[w.Text]; twice {
			r.Report(CodeTwice, w.Place, fmt.Sprintf("%q stands on line %d already", w.Text, had.Line), "take one of them away")
			continue
		}
		first[w.Text] = w.Place
		out = append(out, w.Text)
	}
	return out
}
