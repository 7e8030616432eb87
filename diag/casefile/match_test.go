package casefile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// A reading is taken only when its function, both points and the state say
// which test it is.
func TestReadingsThatAreTaken(t *testing.T) {
	for _, c := range []struct {
		name, reading string
		test          string
		value         float64
	}{
		{"everything said", `{function: dc volts, red: bat.pos, black: bat.neg, state: "off", value: "12.6"}`, "rest", 12.6},
		{"the state tells two apart", `{function: dc volts, red: bat.pos, black: bat.neg, state: held, value: "11.2 V"}`, "held", 11.2},
		{"millivolts", `{function: dc volts, red: chg.pos, black: chg.neg, state: "off", value: 370 mV}`, "charger", 0.37},
		{"leads the other way round", `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: "-12.6"}`, "rest", 12.6},
		{"a battery charged backwards, leads right", `{function: dc volts, red: bat.pos, black: bat.neg, state: "off", value: "-3.1"}`, "rest", -3.1},
		{"backwards and swapped", `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: "3.1"}`, "rest", -3.1},
		{"nothing, swapped, is not minus nothing", `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: "0.00"}`, "rest", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := one(t, c.reading)
			require.Empty(t, got.Aside)
			require.Len(t, got.Events, 2, "the intake and the reading")
			require.Equal(t, c.test, got.Events[1].Read.Test)
			require.InDelta(t, c.value, got.Events[1].Read.Reading.Value, 1e-9)
			require.False(t, got.Events[1].Read.Reading.Value == 0 && 1/got.Events[1].Read.Reading.Value < 0, "no minus zero")
		})
	}
}

func TestSwappedLeadsTurnAWanderingDisplay(t *testing.T) {
	r := one(t, `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: "-12.7..-12.3"}`).Events[1].Read.Reading
	require.Equal(t, measure.Wanders, r.Kind)
	require.InDeltaSlice(t, []float64{12.3, 12.5, 12.7}, []float64{r.Low, r.Value, r.High}, 1e-9)
}

func TestFlickerAndOverRangeAreReadings(t *testing.T) {
	for value, kind := range map[string]measure.Kind{"flicker": measure.Flicker, "OL": measure.OverRange} {
		c := one(t, `{function: dc volts, red: bat.pos, black: bat.neg, state: "off", value: `+value+`}`)
		require.Empty(t, c.Aside)
		require.Equal(t, kind, c.Events[1].Read.Reading.Kind)
	}
}

// What is missing is asked for, never guessed.
func TestReadingsThatAreSetAside(t *testing.T) {
	for _, c := range []struct {
		name, reading   string
		test, what, why string
	}{
		{
			"no black point", `{function: dc volts, red: mot.pos, state: held, value: "11"}`,
			"motor", "11 on dc volts, mot.pos to ?, held", "it may be motor, but the case does not say where the black lead was",
		},
		{
			"no red point", `{function: dc volts, black: chg.neg, state: "off", value: "13.5"}`,
			"charger", "13.5 on dc volts, ? to chg.neg, off", "it may be charger, but the case does not say where the red lead was",
		},
		{
			"no state", `{function: dc volts, red: chg.pos, black: chg.neg, value: "13.5"}`,
			"charger", "13.5 on dc volts, chg.pos to chg.neg, state not said", "it may be charger, but the case does not say the state of the machine",
		},
		{
			"no function", `{red: chg.pos, black: chg.neg, state: "off", value: "13.5"}`,
			"charger", "13.5 on a function not said, chg.pos to chg.neg, off", "it may be charger, but the case does not say the meter's function (AC or DC)",
		},
		{
			"several things missing", `{red: mot.pos, value: "11"}`,
			"motor", "11 on a function not said, mot.pos to ?, state not said",
			"it may be motor, but the case does not say the meter's function (AC or DC) and where the black lead was and the state of the machine",
		},
		{
			"two tests fit", `{function: dc volts, red: bat.pos, black: bat.neg, value: "12.6"}`,
			"", "12.6 on dc volts, bat.pos to bat.neg, state not said", "it could be rest or held; say the state, both points and any setup, or which it is, as test: rest",
		},
		{
			"a number alone", `{value: "12.6"}`,
			"", "12.6 on a function not said, state not said", "it could be rest or held or charger or motor; say the state, both points and any setup, or which it is, as test: rest",
		},
		{
			"no test reads that", `{function: ac volts, red: bat.pos, black: bat.neg, state: "off", value: "12.6"}`,
			"", "12.6 on ac volts, bat.pos to bat.neg, off", "set the meter to DC (dc volts): that is what is read there (rest), and the case says ac volts",
		},
		{
			"nothing is read there", `{function: dc volts, red: bat.pos, black: chg.neg, state: "off", value: "12.6"}`,
			"", "12.6 on dc volts, bat.pos to chg.neg, off", "no test of this system reads that; give the two points, the state and the meter's function",
		},
		{
			"ohms on a live circuit", `{function: ohms, red: mot.pos, black: bat.neg, state: held, value: "0.6"}`,
			"", "0.6 on ohms, mot.pos to bat.neg, held",
			"warning: never read ohms while current can flow (held): the figure means nothing and the meter may be spoilt; take the power off, say that state, and read again",
		},
		{
			"beyond what the system can produce", `{function: dc volts, red: bat.pos, black: bat.neg, state: "off", value: "124"}`,
			"rest", "124 on dc volts, bat.pos to bat.neg, off",
			"124 is outside what this system can produce here (-20 to 30): check the point, the unit and the decimal point",
		},
		{
			"possible only before the leads are turned", `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: "25"}`,
			"rest", "25 on dc volts, bat.neg to bat.pos, off",
			"-25 with the leads this way round can't be (-20 to 30 is possible): were they swapped? Then it is 25",
		},
		{
			"beyond the meter", `{function: dc volts, red: chg.pos, black: chg.neg, state: "off", value: "600"}`,
			"charger", "600 on dc volts, chg.pos to chg.neg, off",
			`600 V does not fit a scale of the meter "Test meter", which has dc volts up to 2, 20, 200 V; check the reading and its range`,
		},
		{
			"over the range said", `{function: dc volts, red: chg.pos, black: chg.neg, state: "off", value: "12.6", range: 2 V}`,
			"charger", "12.6 @2 V on dc volts, chg.pos to chg.neg, off",
			`12.6 V does not fit a scale of the meter "Test meter", which has dc volts up to 2, 20, 200 V; check the reading and its range`,
		},
		{
			"over range, swapped", `{function: dc volts, red: bat.neg, black: bat.pos, state: "off", value: OL}`,
			"rest", "OL on dc volts, bat.neg to bat.pos, off", "it went over range with the leads the other way round; swap them and read again",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := one(t, c.reading)
			require.Len(t, got.Events, 1, "only the intake")
			require.Len(t, got.Aside, 1)
			place := got.Aside[0].Place
			got.Aside[0].Place = source.Place{}
			require.Equal(t, strings.Contains(c.why, "possible") || strings.Contains(c.why, "can produce"), got.Aside[0].Reading != nil, "a value that can't be right")
			got.Aside[0].Reading = nil
			lacks := strings.Contains(c.what, "?") || strings.Contains(c.what, "not said")
			require.Equal(t, []Aside{{What: c.what, Test: c.test, Why: c.why, Lacks: lacks}}, got.Aside)
			at := ""
			if c.test != "" && !strings.Contains(c.why, "does not say") {
				at = "value: " // what is wrong is the value
			}
			const line = "readings: ["
			require.Equal(t, []int{2, len(line) + strings.Index(c.reading, at) + len(at) + 1}, []int{place.Line, place.Column})
		})
	}
}

// The unit decides too: amps are no volts, and a value that can be read in two
// ways is not read at all. Such a value is a slip of the pen, shown where it
// stands.
func TestValuesThatCantBeRead(t *testing.T) {
	for _, value := range []string{"12.6 A", "12.6 V AC", "1,234", "twelve"} {
		c, issues := load(t, `readings: [{function: dc volts, red: chg.pos, black: chg.neg, state: "off", value: "`+value+`"}]`)
		require.Nil(t, c, value)
		require.Len(t, issues, 1, value)
		require.Equal(t, CodeValue, issues[0].Code)
		require.Equal(t, []int{2, 84}, []int{issues[0].Place.Line, issues[0].Place.Column})
		require.NotEmpty(t, issues[0].Message)
	}
}

func TestTurnedByFunction(t *testing.T) {
	for f, want := range map[measure.Function]float64{
		measure.DCVolts: -5, measure.DCAmps: -5, measure.ACVolts: 5, measure.Ohms: 5, measure.Continuity: 5,
	} {
		r, why := turned(measure.Reading{Function: f, Kind: measure.Number, Value: 5})
		require.Empty(t, why)
		require.InDelta(t, want, r.Value, 0, string(f))
	}
	_, why := turned(measure.Reading{Function: measure.DiodeTest, Kind: measure.Number, Value: 0.6})
	require.Equal(t, "a diode reads otherwise the other way round; swap the leads and read again", why)
}

// A test with a setup is matched only by a reading with that setup, in any
// order.
func TestSetupsTellTestsApart(t *testing.T) {
	plain := &tree.Test{ID: "plain", Kind: tree.Metered, Function: measure.Ohms, Red: "a", Black: "b", State: "off"}
	off := &tree.Test{ID: "unplugged", Kind: tree.Metered, Function: measure.Ohms, Red: "a", Black: "b", State: "off", With: []string{"plug-off", "key-out"}}
	sys := &tree.System{Tests: []*tree.Test{plain, off}}
	e := entry{function: measure.Ohms, red: "a", black: "b", state: "off"}
	test, _, question := match(sys, e)
	require.Equal(t, []any{plain, ""}, []any{test, question})
	e.with = []string{"key-out", "plug-off"}
	test, _, question = match(sys, e)
	require.Equal(t, []any{off, ""}, []any{test, question})
	e.with = []string{"key-out"}
	test, _, _ = match(sys, e)
	require.Nil(t, test)
}

func TestEventsMakeAJob(t *testing.T) {
	c, issues := load(t,
		`complaint: dead`, `words: "Nothing\e[31m at all"`, `label: {volts: 12, chemistry: agm}`, `bench: 7.5`, `worth: "180.00"`, `history: [stored]`,
		`readings:`,
		`  - {function: dc volts, red: bat.pos, black: bat.neg, state: "off", value: "12.7"}`,
		`  - {value: "3"}`,
		`seen: [{test: turns, choice: stands}]`,
		`expect: {found: [mot.open], good: [bat.weak], asks: [motor], why: It stands.}`,
	)
	require.Empty(t, issues)
	in := c.Events[0].Intake
	require.Equal(t, []string{"spray-pump", "dead", "Nothing at all", "180.00", "agm"}, []string{in.System, in.Complaint, in.Words, in.Worth, in.LabelText["chemistry"]})
	require.Equal(t, []string{"stored"}, in.History)
	require.InDelta(t, 12, in.Label["volts"], 0)
	require.InDelta(t, 7.5, in.Celsius, 0)
	require.Equal(t, "test", in.Meter.ID, "the only meter of the library")
	require.Len(t, c.Aside, 1)
	facts, err := job.Fold(c.Events)
	require.NoError(t, err)
	require.Len(t, facts.Answers["rest"], 1)
	require.Equal(t, "stands", facts.Answers["turns"][0].Seen.Choice)
	require.Equal(t, &Expect{
		Found: []string{"mot.open"}, Suspects: []string{}, Cleared: []string{}, Good: []string{"bat.weak"}, Asks: []string{"motor"}, Why: "It stands.",
	}, c.Expect)
}

func TestWhatMayBeLeftOut(t *testing.T) {
	c, issues := load(t)
	require.Empty(t, issues)
	require.Equal(t, "dead", c.Events[0].Intake.Complaint, "the first of the system")
	require.InDelta(t, 20, c.Events[0].Intake.Celsius, 0)
	require.Nil(t, c.Expect)
}

func TestOwnMeter(t *testing.T) {
	c, issues := load(t, `meter: {title: Old one, true rms: yes, scales: [{measure: dc volts, full: 50, step: 0.5, percent: 2, counts: 1}]}`,
		`readings: [{function: dc volts, red: chg.pos, black: chg.neg, state: "off", value: "44"}]`)
	require.Empty(t, issues)
	require.Equal(t, measure.Meter{ID: "own", Title: "Old one", TrueRMS: true, Scales: []measure.Scale{
		{Function: measure.DCVolts, FullScale: 50, Resolution: 0.5, Percent: 2, Counts: 1},
	}}, c.Events[0].Intake.Meter)
	require.Empty(t, c.Aside)
	require.Len(t, c.Events, 2)
}

// A word of the trade leads to the state that it means, and one that only looks like
// another to no state at all.
func TestWhatStatesAreCalled(t *testing.T) {
	lib := pump(t)
	sys := lib.Systems["spray-pump"]
	sys.States = []tree.State{{ID: "off", Title: "All off"}, {ID: "key-start", Title: "Key held in start"}, {ID: "running", Title: "Engine running"}}
	for said, hint := range map[string]string{
		"cranking": "for cranking write key-start (Key held in start)",
		"Start":    "for Start write key-start (Key held in start)",
		"runing":   `did you mean "running"?`,
		"turning":  "for turning write key-start (Key held in start)",
		"stunning": "one of: off (All off), key-start (Key held in start), running (Engine running)",
	} {
		_, issues := Load(source.File{Name: "case.yaml", Text: "system: spray-pump\nreadings: [{state: " + said + ", value: 1}]"}, lib)
		require.Len(t, issues, 1, said)
		require.Equal(t, hint, issues[0].Hint)
	}
}
