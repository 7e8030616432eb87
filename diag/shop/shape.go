package shop

import (
	"reflect"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

type fileShape struct {
	Shop    shopShape    `yaml:"shop" is:"required"`
	Grades  gradesShape  `yaml:"grades"`
	Bench   benchShape   `yaml:"bench"`
	Worth   []shape.Pair `yaml:"worth" is:"keyed"`
	Leaving LeavingShape `yaml:"leaving"`
}

type shopShape struct {
	Place         source.Place
	Currency      shape.Word  `yaml:"currency" is:"required"`
	LabourRate    shape.Word  `yaml:"labour rate" is:"required"`
	MinimumLabour shape.Word  `yaml:"minimum labour"`
	TaxPercent    shape.Word  `yaml:"tax percent"`
	TaxOn         shape.Word  `yaml:"tax on"`
	TaxParts      shape.Word  `yaml:"tax parts percent"`
	TaxLabour     shape.Word  `yaml:"tax labour percent"`
	TaxOther      shape.Word  `yaml:"tax other percent"`
	WarnAbove     shape.Word  `yaml:"warn above percent"`
	RoundTo       shape.Word  `yaml:"round to"`
	Fee           shape.Word  `yaml:"diagnostic fee"`
	FeeCredited   shape.YesNo `yaml:"fee credited"`
	Consumables   shape.Word  `yaml:"consumables"`
	Seasons       shape.Word  `yaml:"seasons"`
	Conversion    shape.Word  `yaml:"conversion worth percent"`
	StaleDays     shape.Word  `yaml:"stale days"`
	ComebackDays  shape.Word  `yaml:"comeback days"`
}

type gradesShape struct {
	Original    gradeShape `yaml:"original"`
	Aftermarket gradeShape `yaml:"aftermarket"`
	Bin         gradeShape `yaml:"bin"`
}

type gradeShape struct {
	Markup       shape.Word `yaml:"markup percent"`
	WarrantyDays shape.Word `yaml:"warranty days"`
	FailPercent  shape.Word `yaml:"fail percent"`
}

type benchShape struct {
	Meters []shape.Word `yaml:"meters"`
	Tools  []shape.Word `yaml:"tools"`
}

// LeavingShape is how Leaving is written, in settings and in a price file.
type LeavingShape struct {
	AsIsPercent    shape.Word `yaml:"as is percent"`
	PartOutPercent shape.Word `yaml:"part out percent"`
	PartOutMinutes shape.Word `yaml:"part out minutes"`
}

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[fileShape](): "the settings", reflect.TypeFor[shopShape](): "the shop",
	reflect.TypeFor[gradesShape](): `"grades"`, reflect.TypeFor[gradeShape](): "a grade",
	reflect.TypeFor[benchShape](): `"bench"`, reflect.TypeFor[LeavingShape](): `"leaving"`,
	reflect.TypeFor[shape.Pair](): "",
}, "begin it with shop:")

// fill takes what a shape lacks from another of its type.
func fill(into, from reflect.Value) {
	for i := range into.NumField() {
		to, std := into.Field(i), from.Field(i)
		switch v := to.Addr().Interface().(type) {
		case *shape.Word:
			if !v.Given() {
				*v = shape.Word{Text: std.Interface().(shape.Word).Text}
			}
		case *shape.YesNo:
			if !v.Given {
				*v = shape.YesNo{Value: std.Interface().(shape.YesNo).Value}
			}
		case *source.Place:
		default:
			if to.Kind() == reflect.Struct {
				fill(to, std)
			}
		}
	}
}
