package spice_test

import (
	"math"
	"strings"
	"testing"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

// stands is a set of states that no solver made.
type stands struct{ closed, blown, tripped, asleep bool }

func (s stands) Closed(string) bool   { return s.closed }
func (s stands) Blown(string) bool    { return s.blown }
func (s stands) Tripped(string) bool  { return s.tripped }
func (s stands) Volts(string) float64 { return 12.5 }
func (s stands) Amps(string) float64 {
	if s.asleep {
		return 0
	}
	return -1
}

// Lines as the ngspice user's manual describes the elements: R and C with two
// nodes and a value, L likewise, V with dc and sin(offset peak hertz), D and S
// with a model.
func TestEachKindOfPartHasItsElements(t *testing.T) {
	relay := circuit.Relay{Name: "r", From: "a", To: "b", CoilFrom: "c", CoilTo: "d", CoilOhms: 4, PullIn: 1.75, DropOut: 0.75, Ohms: 0.002, Leak: 1e9}
	fuse := circuit.Fuse{Name: "f", From: "a", To: "b", Rating: 10, Ohms: 0.005}
	guard := circuit.Electronics{Name: "e", From: "a", To: "b", Sense: "0v", Ohms: 0.02, Leak: 1e6}
	sleeper := circuit.Supply{Name: "s", Plus: "a", Minus: "b", Volts: 13, Ohms: 0.5, Amps: 2, Wakes: 3}
	for name, c := range map[string]struct {
		part   circuit.Part
		states spice.States
		want   []string
	}{
		"battery":             {circuit.EMF{Name: "b", Plus: "a", Minus: "b", Volts: 12.6, Ohms: 0.02}, nil, []string{"r2 n_a x1 0.02", "v3 x1 n_b dc 12.6"}},
		"ideal source":        {circuit.EMF{Name: "b", Plus: "a", Minus: "b", Volts: -9}, nil, []string{"v1 n_a n_b dc -9"}},
		"resistor":            {circuit.Resistor{Name: "r", From: "a", To: "b", Ohms: 47}, nil, []string{"r1 n_a n_b 47"}},
		"no resistance":       {circuit.Resistor{Name: "r", From: "a", To: "b"}, nil, []string{"r1 n_a n_b 1e-06"}},
		"broken":              {circuit.Resistor{Name: "r", From: "a", To: "b", Ohms: math.Inf(1)}, nil, nil},
		"wire":                {circuit.Wire{Name: "w", From: "a", To: "b", AWG: 36, Metres: 0, Celsius: 20, Extra: 0.25}, nil, []string{"r1 n_a n_b 0.25"}},
		"switch closed":       {circuit.Switch{Name: "s", From: "a", To: "b", Closed: true, Ohms: 0.01}, nil, []string{"r1 n_a n_b 0.01"}},
		"switch open":         {circuit.Switch{Name: "s", From: "a", To: "b", Ohms: 0.01}, nil, nil},
		"switch leaks":        {circuit.Switch{Name: "s", From: "a", To: "b", Ohms: 0.01, Leak: 2e7}, nil, []string{"r1 n_a n_b 2e+07"}},
		"fuse whole":          {fuse, stands{}, []string{"r1 n_a n_b 0.005"}},
		"fuse blown":          {fuse, stands{blown: true}, nil},
		"relay released":      {relay, stands{}, []string{"r1 n_c n_d 4", "r2 n_a n_b 1e+09"}},
		"relay pulled in":     {relay, stands{closed: true}, []string{"r1 n_c n_d 4", "r2 n_a n_b 0.002"}},
		"electronics on":      {guard, stands{}, []string{"r1 n_a n_b 0.02"}},
		"electronics tripped": {guard, stands{tripped: true}, []string{"r1 n_a n_b 1e+06"}},
		"supply awake": {sleeper, stands{}, []string{
			"v2 n_a x1 dc 0", "b3 x1 n_b i=-max(0,min(2,(13-(v(n_a)-v(n_b)))/0.5))", ".nodeset v(n_a)=12.5", ".nodeset v(n_b)=12.5",
		}},
		"supply asleep": {sleeper, stands{asleep: true}, nil},
		"diode":         {circuit.Diode{Name: "d", Anode: "a", Cathode: "b"}, nil, []string{"v2 n_a x1 dc 0", "d3 x1 n_b m_v2", ".model m_v2 d(is=5e-09 n=1.8)"}},
		"capacitor":     {circuit.Capacitor{Name: "c", From: "a", To: "b", Farads: 0.001}, nil, []string{"v2 n_a x1 dc 0", "c3 x1 n_b 0.001"}},
		"winding": {circuit.Winding{Name: "w", From: "a", To: "b", RMS: 10, Hertz: 50, Ohms: 2, Henries: 0.004}, nil, []string{
			"r2 n_a x1 2", "l4 x1 x3 0.004", "v5 x3 n_b dc 0 sin(0 14.142135623730951 50)",
		}},
		"motor locked": {circuit.Motor{Name: "m", Plus: "a", Minus: "b", Ohms: 0.03, Brush: 0.8, BrushAmps: 4, Viscous: 1, Locked: true}, nil, []string{
			"v2 n_a x1 dc 0", "b3 x1 n_b v=0.03*i(v2)+0.8*tanh(i(v2)/4)",
		}},
	} {
		t.Run(name, func(t *testing.T) {
			d, err := spice.Write("x", "0v", c.states, nil, c.part)
			require.NoError(t, err)
			require.Equal(t, c.want, elements(d.OperatingPoint()))
		})
	}
}

// elements are the lines of a deck between options and control, comments left out.
func elements(deck string) []string {
	_, rest, _ := strings.Cut(deck, ".options")
	body, _, _ := strings.Cut(rest, ".control")
	var lines []string
	for _, l := range strings.Split(strings.TrimSpace(body), "\n")[1:] {
		if !strings.HasPrefix(l, "*") {
			lines = append(lines, l)
		}
	}
	return lines
}

// ngspice knows no capitals and few signs, and a line break would begin a line of
// commands: names from outside must do neither harm.
func TestNamesOfNodesAndPartsStayApartAndOnTheirLines(t *testing.T) {
	d, err := spice.Write("title\n.control\nshell true", "GND", nil, nil,
		circuit.Resistor{Name: "one\nshell true", From: "a b", To: "AB", Ohms: 1},
		circuit.Resistor{Name: "two", From: "a-B", To: "gnd", Ohms: 2},
		circuit.Resistor{Name: "three", From: "\nquit", To: "GND", Ohms: 3})
	require.NoError(t, err)
	nodes := d.Nodes()
	seen := map[string]string{}
	for ours, theirs := range nodes {
		require.Empty(t, seen[theirs], "%q and %q are one node", ours, seen[theirs])
		require.Regexp(t, `^(0|[a-z0-9_]+)$`, theirs)
		seen[theirs] = ours
	}
	require.Len(t, nodes, 6)
	require.Equal(t, "0", nodes["GND"])
	for _, line := range strings.Split(d.OperatingPoint(), "\n") {
		require.NotRegexp(t, `^\s*(shell|quit$)`, line)
	}
	require.Equal(t, 1, strings.Count(d.OperatingPoint(), "\n.control"))
}

func TestVoltsAndAmpsAreExpressionsOfTheDeck(t *testing.T) {
	d, err := spice.Write("x", "N", nil, nil,
		circuit.EMF{Name: "battery", Plus: "P", Minus: "N", Volts: 12},
		circuit.Resistor{Name: "load", From: "P", To: "Q", Ohms: 8},
		circuit.Switch{Name: "open", From: "Q", To: "N"})
	require.NoError(t, err)
	require.Equal(t, "v(n_p)", d.Volts("P", "N"))
	require.Equal(t, "(-v(n_p))", d.Volts("N", "P"))
	require.Equal(t, "(v(n_p)-v(n_q))", d.Volts("P", "Q"))
	require.Equal(t, "0", d.Volts("P", "nowhere"))
	require.Equal(t, "i(v1)", d.Amps("battery"))
	require.Equal(t, "(v(n_p)-v(n_q))/8", d.Amps("load"))
	require.Equal(t, "0", d.Amps("open"))
	require.Equal(t, "0", d.Amps("nothing"))
}

func TestAnUnknownKindOfPartIsTold(t *testing.T) {
	_, err := spice.Write("x", "N", nil, nil, &circuit.Resistor{Name: "r", From: "a", To: "N", Ohms: 1})
	require.ErrorContains(t, err, "*circuit.Resistor")
}
