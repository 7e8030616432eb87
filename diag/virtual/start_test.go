package virtual

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

// table reads a file of testdata/circuits: its first lines say where the figures
// are from. Rows are by their first column.
func table(t *testing.T, name string) (rows map[string]map[string]string) {
	t.Helper()
	file, err := os.Open("../../testdata/circuits/" + name)
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	lines, err := r.ReadAll()
	require.NoError(t, err)
	rows = map[string]map[string]string{}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, field := range line {
			row[lines[0][i]] = field
		}
		rows[line[0]] = row
	}
	return rows
}

// phases are the figures of a cell: one, or two where the solenoid chatters.
func phases(t *testing.T, cell string) (low, high float64) {
	t.Helper()
	one, two, both := strings.Cut(cell, "/")
	a, err := strconv.ParseFloat(one, 64)
	require.NoError(t, err)
	if !both {
		return a, a
	}
	b, err := strconv.ParseFloat(two, 64)
	require.NoError(t, err)
	return min(a, b), max(a, b)
}

// faultsOf are the faults of the table as the system names them.
var faultsOf = map[string]struct {
	fault    string
	way      string
	severity float64
}{
	"ok":    {},
	"flat":  {fault: "battery.flat"},
	"gnd1":  {"cable.ground", "corroded", 0.05},
	"gnd2":  {"cable.ground", "corroded", 0.20},
	"gnd3":  {"cable.ground", "corroded", 1.0},
	"gndo":  {"cable.ground", "broken", 0},
	"pos1":  {"cable.positive", "corroded", 0.05},
	"pos2":  {"cable.positive", "corroded", 0.20},
	"fuse":  {fault: "fuse.open"},
	"coilo": {fault: "coil.open"},
	"seiz":  {fault: "engine.seized"},
}

func faulty(t *testing.T, m *Maker, row string) *Machine {
	t.Helper()
	d := Draw{Usual: true, Ways: map[string]string{}, Severities: map[string]float64{}}
	if f := faultsOf[row]; f.fault != "" {
		d.Faults = []string{f.fault}
		if f.way != "" {
			d.Ways[f.fault], d.Severities[f.fault] = f.way, f.severity
		}
	}
	return build(t, m, d)
}

// The figures are those of testdata/circuits/cranking.csv, whose head says where
// they are from.
func TestAnswersAreThoseOfTheReferenceMachine(t *testing.T) {
	rows := table(t, "cranking.csv")
	maker := makerOf(t, "start")
	columns := map[string]string{
		"rest": "rest", "posts": "BP-BN", "starter": "ST-EB", "positive": "BP-ST", "ground": "EB-BN", "contact": "SB-SM",
		"coil": "SC-EB", "fused": "F2-BN", "key": "KS-BN", "brake": "BO-BN", "blade": "PO-BN", "amps": "amps",
	}
	for row := range faultsOf {
		machine := faulty(t, maker, row)
		for test, column := range columns {
			low, high := phases(t, rows[row][column])
			a := answerOf(t, machine, test)
			off := 0.006 // half the last digit of the table, and the tests' own cables
			if test == "amps" {
				off = 0.5
			}
			require.InDelta(t, low, a.Low, off, "%s %s", row, test)
			require.InDelta(t, high, a.High, off, "%s %s", row, test)
			if strings.Contains(rows[row][column], "/") && high-low > 0.1*high {
				require.True(t, a.Flicker, "%s %s", row, test)
			}
		}
		if strings.Contains("flat gnd2 gnd3 pos2", row) {
			require.Equal(t, "clicks", answerOf(t, machine, "sound").Choice, row)
		} else {
			require.False(t, answerOf(t, machine, "starter").Flicker, row)
		}
	}
}

// The figures are of the tables of ohms and draws in testdata/circuits.
func TestOhmsDiodesAndDraw(t *testing.T) {
	machine := usual(t, "start")
	for test, want := range map[string]struct{ value, off float64 }{
		"coil_ohms": {4.2, 0.05},         // 4 ohm and 0.2 of the leads
		"to_frame":  {50e3, 50},          // by the regulator
		"diode":     {0.558, 0.0005},     // 1 mA forward
		"draw":      {0.252802e-3, 5e-9}, // with a burden of 0.02 ohm
		"run_down":  {3, 0},              // from a formula
		"ghost":     {4.232, 0.0005},     // 20 Mohm of damp into 10 Mohm of meter
	} {
		a := answerOf(t, machine, test)
		require.InDelta(t, want.value, a.Value, want.off, test)
		require.False(t, a.Over || a.Live || a.Flicker, test)
	}
	require.True(t, answerOf(t, usual(t, "start", "coil.open"), "coil_ohms").Over)
}

func TestWhatTheCircuitCannotShow(t *testing.T) {
	machine := usual(t, "start")
	for test, why := range map[string]string{
		"look": "nothing in the circuit can be seen",
		"lost": "worked out",
	} {
		_, err := machine.Answer(testOf(t, machine, test))
		var cant *Unanswered
		require.ErrorAs(t, err, &cant, test)
		require.ErrorContains(t, err, why)
	}
	other := *testOf(t, machine, "rest")
	other.ID, other.Red = "other", "nowhere"
	_, err := machine.Answer(&other)
	require.ErrorContains(t, err, "no part at the points")

	_, err = machine.maker.Build(Draw{Faults: []string{"gremlin"}})
	require.ErrorContains(t, err, "gremlin")
	_, err = machine.maker.Build(Draw{Faults: []string{"cable.ground"}, Ways: map[string]string{"cable.ground": "eaten"}})
	require.ErrorContains(t, err, `no way "eaten"`)
	_, err = NewMaker(&tree.System{}, Conditions{})
	require.ErrorContains(t, err, "no circuit")
}

func TestComplaintIsTheFirstThatHolds(t *testing.T) {
	maker := makerOf(t, "start")
	for row, want := range map[string]string{"ok": "check", "flat": "clicks", "gnd1": "slow", "seiz": "dead", "fuse": "dead"} {
		got, err := faulty(t, maker, row).Complaint()
		require.NoError(t, err)
		require.Equal(t, want, got, row)
	}
}

func TestWorkChangesTheMachineAndItsFaults(t *testing.T) {
	machine := usual(t, "start", "battery.flat")
	present := func() []string {
		out, err := machine.Present()
		require.NoError(t, err)
		return out
	}
	require.Equal(t, []string{"battery.flat"}, present())
	require.Equal(t, "clicks", answerOf(t, machine, "sound").Choice)
	require.NoError(t, machine.Do("recharge"))
	require.Empty(t, present(), "a charged battery is no longer flat")
	require.Equal(t, "cranks", answerOf(t, machine, "sound").Choice)
	// 0.98 of a full charge by the table of rest volts of this system.
	require.InDelta(t, 11.694+0.98*0.9936842105, answerOf(t, machine, "rest").Value, 1e-4)
	charge, ok := machine.Value("charge")
	require.True(t, ok)
	require.Equal(t, 0.98, charge)
}

func TestAFaultMayBringAnother(t *testing.T) {
	machine := usual(t, "start", "wire.chafed")
	present, err := machine.Present()
	require.NoError(t, err)
	require.Equal(t, []string{"fuse.open", "wire.chafed"}, present, "20 A into 0.1 ohm blow the fuse")
	require.NoError(t, machine.Mend("wire.chafed"))
	present, err = machine.Present()
	require.NoError(t, err)
	require.Empty(t, present)
	require.Equal(t, "cranks", answerOf(t, machine, "sound").Choice)
}
