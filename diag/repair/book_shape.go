package repair

import (
	"reflect"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

type bookShape struct {
	Shop    shopShape    `yaml:"shop" is:"required"`
	Prices  []priceShape `yaml:"prices" is:"required"`
	Worth   []shape.Pair `yaml:"worth" is:"keyed"`
	Leaving leavingShape `yaml:"leaving"`
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
	reflect.TypeFor[bookShape](): "a price book", reflect.TypeFor[shopShape](): "the shop",
	reflect.TypeFor[priceShape](): "a price", reflect.TypeFor[leavingShape](): `"leaving"`,
	reflect.TypeFor[shape.Pair](): "",
}, "begin it with shop: and prices:")
