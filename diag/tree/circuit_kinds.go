package tree

import (
	"slices"
	"strings"

	"benchlead/diag/formula"
)

// quantity is one key of a part of the circuit that takes a formula.
type quantity struct {
	key   string              // as it is written: "coil ohms"
	name  string              // in CircuitPart and in set: "coil_ohms"
	yesNo bool                // it takes a condition
	want  []formula.Dimension // none: any
	of    func(s *pieceShape) expression
}

func quantityOf(key string, of func(s *pieceShape) expression, want ...formula.Dimension) quantity {
	return quantity{key: key, name: strings.ReplaceAll(key, " ", "_"), want: want, of: of}
}

func conditionOf(key string, of func(s *pieceShape) expression) quantity {
	return quantity{key: key, name: key, yesNo: true, of: of}
}

// quantities are all that parts may have.
var quantities = []quantity{
	quantityOf("volts", func(s *pieceShape) expression { return s.Volts }, formula.Volts),
	quantityOf("ohms", func(s *pieceShape) expression { return s.Ohms }, formula.Ohms),
	quantityOf("amps", func(s *pieceShape) expression { return s.Amps }, formula.Amps),
	quantityOf("leak", func(s *pieceShape) expression { return s.Leak }, formula.Ohms),
	quantityOf("coil ohms", func(s *pieceShape) expression { return s.CoilOhms }, formula.Ohms),
	quantityOf("pulls in", func(s *pieceShape) expression { return s.PullsIn }, formula.Amps),
	quantityOf("drops out", func(s *pieceShape) expression { return s.DropsOut }, formula.Amps),
	quantityOf("ke", func(s *pieceShape) expression { return s.Ke }),
	quantityOf("brush", func(s *pieceShape) expression { return s.Brush }, formula.Volts),
	quantityOf("drag", func(s *pieceShape) expression { return s.Drag }),
	quantityOf("viscous", func(s *pieceShape) expression { return s.Viscous }),
	quantityOf("watts", func(s *pieceShape) expression { return s.Watts }, formula.Watts),
	quantityOf("wakes", func(s *pieceShape) expression { return s.Wakes }, formula.Volts),
	quantityOf("hertz", func(s *pieceShape) expression { return s.Hertz }),
	quantityOf("henries", func(s *pieceShape) expression { return s.Henries }),
	quantityOf("farads", func(s *pieceShape) expression { return s.Farads }),
	quantityOf("most amps", func(s *pieceShape) expression { return s.MostAmps }, formula.Amps),
	quantityOf("least volts", func(s *pieceShape) expression { return s.LeastVolts }, formula.Volts),
	quantityOf("gauge", func(s *pieceShape) expression { return s.Gauge }, formula.Plain),
	quantityOf("metres", func(s *pieceShape) expression { return s.Metres }, formula.Plain),
	quantityOf("ends", func(s *pieceShape) expression { return s.Ends }, formula.Ohms),
	conditionOf("closed", func(s *pieceShape) expression { return s.Closed }),
	conditionOf("blown", func(s *pieceShape) expression { return s.Blown }),
	conditionOf("welded", func(s *pieceShape) expression { return s.Welded }),
	conditionOf("stuck", func(s *pieceShape) expression { return s.Stuck }),
	conditionOf("locked", func(s *pieceShape) expression { return s.Locked }),
	conditionOf("shorted", func(s *pieceShape) expression { return s.Shorted }),
	conditionOf("shut", func(s *pieceShape) expression { return s.Shut }),
}

// kindOfPart is what a kind of part has.
type kindOfPart struct {
	needs []string // keys that it must have
	may   []string // keys that it may have
	gives []string // quantities of the solved circuit, besides volts and amps
	main  string   // the quantity that spread is of
}

var kindsOfPart = map[PartKind]kindOfPart{
	IsEMF:         {needs: []string{"volts", "ohms"}, main: "ohms"},
	IsResistor:    {needs: []string{"ohms"}, main: "ohms"},
	IsWire:        {may: []string{"ohms", "gauge", "metres", "ends"}, main: "ohms"},
	IsSwitch:      {needs: []string{"ohms", "closed"}, may: []string{"leak"}, main: "ohms"},
	IsFuse:        {needs: []string{"amps", "ohms"}, may: []string{"blown"}, gives: []string{"blown"}, main: "ohms"},
	IsRelay:       {needs: []string{"ohms", "coil ohms", "pulls in", "drops out"}, may: []string{"leak", "welded", "stuck"}, gives: []string{"pulled", "chatters", "coil_amps"}, main: "coil_ohms"},
	IsMotor:       {needs: []string{"ohms", "ke", "brush", "drag", "viscous"}, may: []string{"locked"}, gives: []string{"rpm"}, main: "ohms"},
	IsDiode:       {needs: []string{"ohms"}, may: []string{"shorted"}, main: "ohms"},
	IsLamp:        {needs: []string{"volts", "watts"}, main: "watts"},
	IsSupply:      {needs: []string{"volts", "ohms", "amps"}, may: []string{"wakes"}, main: "volts"},
	IsWinding:     {needs: []string{"volts", "hertz", "ohms", "henries"}, main: "volts"},
	IsCapacitor:   {needs: []string{"farads", "ohms"}, main: "farads"},
	IsElectronics: {needs: []string{"ohms"}, may: []string{"most amps", "least volts", "leak", "shut"}, gives: []string{"tripped"}, main: "ohms"},
}

// Main is the quantity of a part of that kind which its spread is of, as in
// CircuitPart.Numbers. A wire given by its gauge has none of that name; its
// spread is of the ohms that come of it.
func (k PartKind) Main() string { return kindsOfPart[k].main }

func partKinds() []string {
	var out []string
	for k := range kindsOfPart {
		out = append(out, string(k))
	}
	slices.Sort(out)
	return out
}

// solved are the quantities that a solved circuit gives, as conditions name
// them.
var solved = map[string]formula.Dimension{
	"volts": formula.Volts, "amps": formula.Amps, "rpm": formula.Plain, "pulled": formula.Plain,
	"chatters": formula.Plain, "coil_amps": formula.Amps, "blown": formula.Plain, "tripped": formula.Plain,
}

func quantityNamed(name string) (quantity, bool) {
	i := slices.IndexFunc(quantities, func(q quantity) bool { return q.name == name })
	if i < 0 {
		return quantity{}, false
	}
	return quantities[i], true
}

// quantityNames are the quantities that set may name of a kind of part.
func quantityNames(k PartKind) []string {
	var out []string
	for _, key := range slices.Concat(kindsOfPart[k].needs, kindsOfPart[k].may) {
		out = append(out, strings.ReplaceAll(key, " ", "_"))
	}
	return out
}
