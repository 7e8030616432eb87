package virtual

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// CodeTurns is of a state that lets something turn and doesn't say so.
const CodeTurns source.Code = "turns-unsaid"

// stillMachines is how many machines without a fault are looked at: what turns does so
// on all of them, or nearly. turning is above what rounding leaves, in rpm.
const (
	stillMachines = 3
	turning       = 1.0
)

// CheckStill reports states, and tests with their setups, in which a motor turns on
// machines without a fault though the state is not said to be moving: nobody would then
// be asked to make the machine safe.
func CheckStill(lib *tree.Library) source.Issues {
	var issues source.Issues
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		if sys := lib.Systems[id]; sys.Circuit != nil {
			issues = append(issues, stillIn(sys)...)
		}
	}
	return issues.Sorted()
}

// stillIn is CheckStill of one system. What can't be built or solved is CheckHealthy's
// to report.
func stillIn(sys *tree.System) source.Issues {
	const mild = 20 // degC
	maker, err := NewMaker(sys, Conditions{Celsius: mild})
	if err != nil {
		return nil
	}
	var machines []*Machine
	for number := range stillMachines {
		machine, err := maker.Build(Draw{Seed: healthySeed, Number: number})
		if err != nil {
			return nil
		}
		machines = append(machines, machine)
	}
	var issues source.Issues
	for _, state := range sys.States {
		if state.Moving {
			continue
		}
		if motor := turns(machines, state.ID, nil); motor != "" {
			issues = append(issues, unsaid(state.Place, fmt.Sprintf("in the state %q", state.ID), motor))
			continue
		}
		for _, t := range sys.Tests {
			if t.State != state.ID || len(t.With) == 0 {
				continue
			}
			if motor := turns(machines, state.ID, t.With); motor != "" {
				issues = append(issues, unsaid(t.Place, fmt.Sprintf("for the test %q, in the state %q with %s,", t.ID, state.ID, strings.Join(t.With, ", ")), motor))
			}
		}
	}
	return issues
}

// turns is a motor that turns on some machine in a state with setups; "" when all
// stand still.
func turns(machines []*Machine, state string, with []string) string {
	for _, m := range machines {
		s, err := m.in(state, with)
		if err != nil {
			return ""
		}
		for i := range m.maker.parts {
			p := &m.maker.parts[i]
			if p.Kind != tree.IsMotor {
				continue
			}
			if rpm, err := m.figure(s, figure{part: i, what: "rpm"}); err == nil && (rpm > turning || rpm < -turning) {
				return p.ID
			}
		}
	}
	return ""
}

func unsaid(place source.Place, where, motor string) source.Issue {
	return source.Issue{
		Code: CodeTurns, Place: place,
		Message: fmt.Sprintf("%s the part %q of the circuit turns on a machine without a fault, and the state isn't said to be moving", where, motor),
		Hint:    "add powered: true and moving: true to the state, with its needs; or correct what the circuit sets there",
	}
}
