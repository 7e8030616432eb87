package repair

import (
	"reflect"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

type bookShape struct {
	Prices  []priceShape `yaml:"prices" is:"required"`
	Worth   []shape.Pair `yaml:"worth" is:"keyed"`
	Leaving leavingShape `yaml:"leaving"`
}

type priceShape struct {
	Place      source.Place
	Part       shape.Word  `yaml:"part" is:"required"`
	Grade      shape.Word  `yaml:"grade" is:"required"`
	Price      shape.Word  `yaml:"price" is:"required"`
	Stock      shape.Word  `yaml:"stock"`
	LeadDays   shape.Word  `yaml:"lead days"`
	Returnable shape.YesNo `yaml:"returnable"`
	Freight    shape.Word  `yaml:"freight"`
	Disposal   shape.Word  `yaml:"disposal"`
	Core       shape.Word  `yaml:"core deposit"`
	Note       shape.Word  `yaml:"note"`
}

type leavingShape struct {
	AsIsPercent    shape.Word `yaml:"as is percent"`
	PartOutPercent shape.Word `yaml:"part out percent"`
	PartOutMinutes shape.Word `yaml:"part out minutes"`
}

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[bookShape]():  "a price book",
	reflect.TypeFor[priceShape](): "a price", reflect.TypeFor[leavingShape](): `"leaving"`,
	reflect.TypeFor[shape.Pair](): "",
}, "begin it with prices:")
