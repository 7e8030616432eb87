package casefile

import (
	"reflect"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

type caseShape struct {
	Case      shape.Word     `yaml:"case"`
	System    shape.Word     `yaml:"system" is:"required"`
	Complaint shape.Word     `yaml:"complaint"`
	Words     shape.Prose    `yaml:"words"`
	Machine   shape.Word     `yaml:"machine"`
	Label     []shape.Pair   `yaml:"label" is:"keyed"`
	Bench     *benchShape    `yaml:"bench"`
	Meter     *meterShape    `yaml:"meter"`
	Worth     shape.Word     `yaml:"worth"`
	History   []shape.Word   `yaml:"history"`
	Readings  []readingShape `yaml:"readings"`
	Seen      []seenShape    `yaml:"seen"`
	Expect    *expectShape   `yaml:"expect"`
}

type benchShape struct {
	Celsius shape.Number `yaml:"celsius" is:"required plain"`
}

// meterShape is the name of a meter of the library, or its accuracy written
// out.
type meterShape struct {
	Place   source.Place
	ID      shape.Word   `yaml:"id" is:"plain"`
	TrueRMS shape.YesNo  `yaml:"true rms"`
	Scales  []scaleShape `yaml:"scales"`
	Title   shape.Word   `yaml:"title"`
}

type scaleShape struct {
	Measure shape.Word   `yaml:"measure" is:"required"`
	Full    shape.Number `yaml:"full" is:"required"`
	Step    shape.Number `yaml:"step" is:"required"`
	Percent shape.Number `yaml:"percent" is:"required"`
	Counts  shape.Number `yaml:"counts" is:"required"`
	Input   shape.Number `yaml:"input"`
}

type readingShape struct {
	Place    source.Place
	Test     shape.Word   `yaml:"test"`
	Function shape.Word   `yaml:"function"`
	Red      shape.Word   `yaml:"red"`
	Black    shape.Word   `yaml:"black"`
	State    shape.Word   `yaml:"state"`
	With     []shape.Word `yaml:"with"`
	Value    shape.Word   `yaml:"value" is:"required"`
	Range    shape.Word   `yaml:"range"`
}

type seenShape struct {
	Test   shape.Word `yaml:"test" is:"required"`
	Choice shape.Word `yaml:"choice" is:"required"`
}

type expectShape struct {
	Found    []shape.Word `yaml:"found"`
	Suspects []shape.Word `yaml:"suspects"`
	Cleared  []shape.Word `yaml:"cleared"`
	Good     []shape.Word `yaml:"good"`
	Asks     []shape.Word `yaml:"asks"`
	Why      shape.Prose  `yaml:"why"`
}

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[caseShape](): "a case", reflect.TypeFor[benchShape](): `"bench"`,
	reflect.TypeFor[meterShape](): "a meter", reflect.TypeFor[scaleShape](): "a scale",
	reflect.TypeFor[readingShape](): "a reading", reflect.TypeFor[seenShape](): "an observation",
	reflect.TypeFor[expectShape](): `"expect"`, reflect.TypeFor[shape.Pair](): "",
}, "begin it with system:, the id of a system, and readings:")
