package repair

import (
	"reflect"

	"benchlead/diag/shape"
	"benchlead/diag/shop"
	"benchlead/diag/source"
)

type bookShape struct {
	Prices  []Row              `yaml:"prices" is:"required"`
	Worth   []shape.Pair       `yaml:"worth" is:"keyed"`
	Leaving *shop.LeavingShape `yaml:"leaving"`
}

// Row is one price as it was written, in a price file or in a table. What its
// words mean is for Read.
type Row struct {
	Place      source.Place
	Part       shape.Word  `yaml:"part" is:"required"`
	Grade      shape.Word  `yaml:"grade" is:"required"`
	Price      shape.Word  `yaml:"price" is:"required"`
	Supplier   shape.Word  `yaml:"supplier"`
	Number     shape.Word  `yaml:"number"`
	Stock      shape.Word  `yaml:"stock"`
	LeadDays   shape.Word  `yaml:"lead days"`
	Returnable shape.YesNo `yaml:"returnable"`
	Freight    shape.Word  `yaml:"freight"`
	Disposal   shape.Word  `yaml:"disposal"`
	Core       shape.Word  `yaml:"core deposit"`
	Date       shape.Word  `yaml:"date"`
	ReplacedBy shape.Word  `yaml:"replaced by"`
	Set        shape.Word  `yaml:"set"`
	Note       shape.Word  `yaml:"note"`
}

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[bookShape](): "a price book",
	reflect.TypeFor[Row]():       "a price", reflect.TypeFor[shop.LeavingShape](): `"leaving"`,
	reflect.TypeFor[shape.Pair](): "",
}, "begin it with prices:")
