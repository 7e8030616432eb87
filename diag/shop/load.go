package shop

import (
	"reflect"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// Load reads a file of settings and reports every problem in it. With a problem
// there are no settings.
func Load(f source.File) (Settings, source.Issues) {
	top, issues := form.Parse(&f)
	if len(issues) > 0 {
		return Settings{}, issues.Sorted()
	}
	r := &money.Reader{Reader: form.Reader(&f)}
	var s fileShape
	r.Read(top, &s, "the settings")
	out := charges(r, s.Shop)
	if len(r.Issues) > 0 {
		return Settings{}, r.Issues.Sorted()
	}
	return out, nil
}

func charges(r *money.Reader, s shopShape) Settings {
	return Settings{
		Currency: r.Currency(s.Currency), LabourRate: r.Amount(s.LabourRate), MinimumLabour: r.Amount(s.MinimumLabour),
		TaxPercent: r.Percent(s.TaxPercent, 100), TaxOn: Taxed(r.OneOf(s.TaxOn, "parts", "both", "none")),
		WarnAbove: r.Percent(s.WarnAbove, 1000), RoundTo: r.Step(s.RoundTo), Fee: r.Amount(s.Fee),
		FeeCredited: s.FeeCredited.Value || !s.FeeCredited.Given, Consumables: r.Amount(s.Consumables),
	}
}

type fileShape struct {
	Shop shopShape `yaml:"shop" is:"required"`
}

type shopShape struct {
	Currency      shape.Word  `yaml:"currency" is:"required"`
	LabourRate    shape.Word  `yaml:"labour rate" is:"required"`
	MinimumLabour shape.Word  `yaml:"minimum labour"`
	TaxPercent    shape.Word  `yaml:"tax percent" is:"required"`
	TaxOn         shape.Word  `yaml:"tax on" is:"required"`
	WarnAbove     shape.Word  `yaml:"warn above percent" is:"required"`
	RoundTo       shape.Word  `yaml:"round to"`
	Fee           shape.Word  `yaml:"diagnostic fee"`
	FeeCredited   shape.YesNo `yaml:"fee credited"`
	Consumables   shape.Word  `yaml:"consumables"`
}

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[fileShape](): "the settings", reflect.TypeFor[shopShape](): "the shop",
}, "begin it with shop:")
