package formula

import "benchlead/diag/source"

// Charge (AmpHours) is always valued in amp-hours, as labels write it.
var (
	Plain    = Dimension{}
	Volts    = Dimension{Volt: 1}
	Amps     = Dimension{Ampere: 1}
	Ohms     = Dimension{Volt: 1, Ampere: -1}
	Seconds  = Dimension{Second: 1}
	AmpHours = Dimension{Ampere: 1, Second: 1}
	Kelvin   = Dimension{Kelvin: 1} // degC
)

// DimensionOf: V A ohm s Ah degC rpm % "".
func DimensionOf(baseUnit string) (Dimension, bool) { return Dimension{}, false }
func (d Dimension) String() string                  { return "" }

type Formula struct {
	text   string
	origin source.Origin
}

func Compile(text string, at source.Origin, names Names, want Dimension) (*Formula, source.Issues) {
	return nil, nil
}
func (f *Formula) Bare() bool                                         { return false }
func (f *Formula) Needs() []string                                    { return nil }
func (f *Formula) Text() string                                       { return f.text }
func (f *Formula) Origin() source.Origin                              { return f.origin }
func (f *Formula) Missing(v Values) []string                          { return nil }
func (f *Formula) Eval(v Values) (float64, error)                     { return 0, nil }
func (f *Formula) Slopes(v Values, names []string) ([]float64, error) { return nil, nil }

type Missing struct{ Names []string }

func (m *Missing) Error() string { return "" }

type NotFinite struct{ Text string }

func (n *NotFinite) Error() string { return "" }

type Function struct {
	Name      string
	Args      []Arg
	Many      bool // the last argument may be repeated
	Result    Dimension
	Same      bool // the result has the dimension that the arguments share
	Condition bool // the result is yes or no
	Says      string
	Source    string
}
type Arg struct {
	Name      string
	Dimension Dimension
	Same      bool     // any dimension, shared by all such arguments
	Words     []string // when set, the argument is one of these words
}

func Functions() []Function { return nil }
