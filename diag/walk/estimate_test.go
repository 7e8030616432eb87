package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// choose takes a path of repairs with a quote; asked is the owner's answer.
func (l *log) choose(total string, repairs ...string) *log {
	return l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{
		Path: "repair", Repairs: repairs, Quote: job.Quote{Currency: "USD", Total: total},
	}})
}

func (l *log) approved(ceiling, currency string) *log {
	return l.add(job.Event{Kind: job.KindAsked, Asked: &job.Asked{Approved: true, Who: "Mrs. K", Total: "1", Ceiling: ceiling, Currency: currency}})
}

func (l *log) declined() *log {
	return l.add(job.Event{Kind: job.KindAsked, Asked: &job.Asked{Who: "Mrs. K", Total: "1", Currency: "USD"}})
}

// ticks does one repair, with what it stales.
func (l *log) ticks(repair string) *log {
	return l.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{
		Repair: repair, Stales: StaledBy(l.lib, l.lib.Systems[l.events[0].Intake.System], l.lib.Repairs[repair]),
	}})
}

// leave leaves the services out.
func (l *log) leave() *log {
	for _, id := range l.lib.Systems["spray-pump"].Service {
		l.add(job.Event{Kind: job.KindServed, Served: &job.Served{Service: id, Left: true}})
	}
	return l
}

func (l *log) undo(seq int64) *log {
	return l.add(job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: seq}})
}

// openSwitch is a job whose switch is found open.
func openSwitch(t *testing.T) *log {
	t.Helper()
	l := begin(t).safe("spark-lead", "off", "fuel", "off").
		read("rest", "12.9").read("held", "11.3").read("motor", "0.0").seen("turns", "stands")
	require.Equal(t, []string{"sw.open"}, found(l.where().Verdict))
	return l
}

func TestARepairWaitsForTheOwner(t *testing.T) {
	for name, c := range map[string]struct {
		total   string
		answers func(l *log)
		want    Stage
	}{
		"nobody asked":                    {"25.50", func(*log) {}, AtEstimate},
		"approved to the cent":            {"25.50", func(l *log) { l.approved("25.50", "USD") }, AtRepair},
		"written another way":             {"25.50", func(l *log) { l.approved("25.5", "USD") }, AtRepair},
		"a cent short":                    {"25.50", func(l *log) { l.approved("25.49", "USD") }, AtEstimate},
		"a fraction no float can hold":    {"0.3", func(l *log) { l.approved("0.30000000000000001", "USD") }, AtRepair},
		"more than enough":                {"25.50", func(l *log) { l.approved("1000", "USD") }, AtRepair},
		"declined":                        {"25.50", func(l *log) { l.declined() }, AtVerdict},
		"approved, then declined":         {"25.50", func(l *log) { l.approved("30", "USD").declined() }, AtVerdict},
		"declined, then approved":         {"25.50", func(l *log) { l.declined().approved("30", "USD") }, AtRepair},
		"the answer taken back":           {"25.50", func(l *log) { l.approved("30", "USD"); l.undo(int64(len(l.events))) }, AtEstimate},
		"no price was worked out":         {"", func(*log) {}, AtRepair},
		"an amount that is no number":     {"much", func(*log) {}, AtEstimate},
		"and somebody approved all of it": {"much", func(l *log) { l.approved("30", "USD") }, AtRepair},
		"another currency, this path":     {"25.50", func(l *log) { l.approved("30", "EUR") }, AtRepair},
	} {
		t.Run(name, func(t *testing.T) {
			l := openSwitch(t).choose(c.total, "new-switch")
			c.answers(l)
			p := l.where()
			require.Equal(t, c.want, p.Stage)
			require.Equal(t, c.want == AtEstimate, p.Estimate != nil)
		})
	}
}

// What is approved is a ceiling for the job: 30.00 hold a first path of 10.00 and a
// second of 20.00, and not one of 20.01.
func TestALaterPathIsAskedAboutOnlyAboveTheCeiling(t *testing.T) {
	for total, want := range map[string]Stage{"20.00": AtRepair, "20.01": AtEstimate} {
		l := openSwitch(t).choose("10.00", "new-switch").approved("30", "USD").ticks("new-switch").safe("spark-lead", "off", "fuel", "off").
			read("motor", "11.1").read("held", "11.3").seen("turns", "stands")
		require.Equal(t, AtVerdict, l.where().Stage)
		p := l.choose(total, "new-motor").where()
		require.Equal(t, want, p.Stage, total)
		if p.Estimate == nil {
			continue
		}
		require.Equal(t, "10", p.Estimate.Before.String())
		require.Equal(t, "30.01", p.Estimate.Total.String())
		require.Equal(t, "0.01", p.Estimate.Short().String())
		require.Equal(t, AtVerdict, l.declined().where().Stage, "what was not wanted is not done")
	}
}

// A ceiling in another currency says nothing of a path chosen after it.
func TestACeilingInAnotherCurrencyIsNoCeiling(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch").approved("3000", "EUR")
	require.Equal(t, AtRepair, l.where().Stage)
	require.Equal(t, AtEstimate, l.choose("9.00", "new-switch").where().Stage)
}

// Work that is begun is not stopped by a question of money: records of before have
// none, and a repair in pieces helps nobody.
func TestWorkThatIsBegunGoesOn(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch", "new-motor").ticks("new-switch").safe("spark-lead", "off", "fuel", "off")
	require.Equal(t, AtRepair, l.where().Stage)
	l = openSwitch(t).choose("10.00", "new-switch").add(job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: "new-switch", Line: "Fit it."}})
	require.Equal(t, AtRepair, l.where().Stage)
}

func TestTheTermsOfARepairComeAfterItsPrice(t *testing.T) {
	l := begin(t).safe("spark-lead", "off", "fuel", "off").read("charger", "0").read("held", "8.0").choose("500", "hand-crank")
	require.Equal(t, AtEstimate, l.where().Stage)
	require.Equal(t, AtTerms, l.approved("500", "USD").where().Stage)
}

// A danger is shown before any question of money.
func TestADangerComesBeforeTheEstimate(t *testing.T) {
	l := begin(t).safe("spark-lead", "off").read("rest", "0.3").read("charger", "0").read("held", "0.2").choose("10", "new-battery", "new-charger")
	require.Equal(t, AtDanger, l.where().Stage)
	require.Equal(t, AtEstimate, l.heed("gas", "rest").where().Stage)
}

// Part of a machine was repaired, and the owner has the rest left: it goes back
// with its safety functions proved all the same, but for one that is taken apart.
func TestAMachineThatWasMendedLeavesWithItsSafetyProved(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch").approved("10", "USD").ticks("new-switch").safe("spark-lead", "off", "fuel", "off").
		read("motor", "11.1").read("held", "11.3").seen("turns", "stands")
	back := *l
	back.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "return unrepaired", Repairs: []string{}}})
	require.Equal(t, AtHandBack, back.where().Stage)
	require.Equal(t, AtClose, back.seen("safe_stop", "stops").where().Stage)
	l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: job.PathPartOut, Repairs: []string{}}})
	require.Equal(t, AtClose, l.where().Stage)
}

// A safety function that was passed over on the way is asked for again.
func TestASafetyFunctionPassedOverIsAskedForAgain(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch").approved("10", "USD").ticks("new-switch").safe("spark-lead", "off", "fuel", "off").
		read("motor", "11.1").read("held", "11.3").seen("turns", "turns").pass("safe_stop").leave()
	p := l.where()
	require.Equal(t, AtHandBack, p.Stage)
	require.Equal(t, "safe_stop", p.Test.ID)
	require.Equal(t, AtClose, l.seen("safe_stop", "stops").where().Stage)
}

func TestServicesComeBetweenTheProofAndTheSafetyFunctions(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch").approved("10", "USD")
	l.lib.Services = map[string]*tree.Service{"oil": {ID: "oil", Title: "Change the oil"}, "filter": {ID: "filter", Title: "Clean the filter"}}
	l.lib.Systems["spray-pump"].Service = []string{"oil", "filter", "gone"}
	l.ticks("new-switch").safe("spark-lead", "off", "fuel", "off").read("motor", "11.1").read("held", "11.3")
	require.Equal(t, AtTest, l.where().Stage, "first it is proved")
	p := l.seen("turns", "turns").where()
	require.Equal(t, AtService, p.Stage)
	require.Len(t, p.Services, 2, "one that the trees don't have is not offered")
	served := func(id string, left bool) *log {
		return l.add(job.Event{Kind: job.KindServed, Served: &job.Served{Service: id, Left: left}})
	}
	p = served("oil", false).where()
	require.Equal(t, AtService, p.Stage)
	require.True(t, p.Services[0].Done)
	require.True(t, p.Services[1].Open())
	require.Equal(t, AtHandBack, served("filter", true).where().Stage)
	require.Equal(t, AtService, l.undo(int64(len(l.events))).where().Stage)
	l.lib.Systems["spray-pump"].Service = nil
	require.Equal(t, AtHandBack, l.where().Stage, "they hold nothing up")
}

// What a service needs is asked for when it is begun, and only what this system has.
func TestAServiceIsMadeSafeFirst(t *testing.T) {
	l := openSwitch(t).choose("10.00", "new-switch").approved("10", "USD")
	l.lib.Safe["pack"] = &tree.SafeItem{ID: "pack", Title: "Pack", Settings: []tree.Setting{{ID: "out"}}}
	l.lib.Services = map[string]*tree.Service{
		"hose":  {ID: "hose", Title: "Look at the hose"},
		"blade": {ID: "blade", Title: "Sharpen it", Needs: map[string]string{"spark-lead": "off", "pack": "out"}, Leaves: map[string]string{"fuel": "off", "pack": "out"}},
	}
	l.lib.Systems["spray-pump"].Service = []string{"hose", "blade"}
	l.ticks("new-switch").safe("spark-lead", "off", "fuel", "off").read("motor", "11.1").read("held", "11.3").seen("turns", "turns").safe("spark-lead", "on")
	p := l.where()
	facts, err := job.Fold(l.events)
	require.NoError(t, err)
	require.Equal(t, AtService, p.Stage, "the list itself asks for nothing")
	require.Equal(t, p, BeforeService(l.lib, facts, p, "hose"))
	require.Equal(t, p, BeforeService(l.lib, facts, p, "gone"))
	asks := BeforeService(l.lib, facts, p, "blade")
	require.Equal(t, AtSafe, asks.Stage)
	require.Equal(t, "blade", asks.Serving.ID)
	require.Len(t, asks.Safe, 1, "it has no pack")
	require.Equal(t, "off", asks.Safe[0].Setting.ID)
	require.Equal(t, map[string]string{"fuel": "off"}, LeftBy(l.lib, p.System, l.lib.Services["blade"]))
	l.safe("spark-lead", "off")
	facts, err = job.Fold(l.events)
	require.NoError(t, err)
	require.Equal(t, AtService, BeforeService(l.lib, facts, l.where(), "blade").Stage)
}

// A machine that was said to be of another kind is not asked for a safety function that
// it has not, nor offered its service; one of which nothing was said is.
func TestAMachineWithoutItIsNotAsked(t *testing.T) {
	lib := library(t, "pump", "hand back: [safe_stop]", "hand back: [safe_stop]\nnot for:\n  - {label: chemistry, says: [agm], leaves out: [safe_stop, hose]}",
		"steps: [Fit it.], checks: [motor]", "steps: [Fit it.], checks: [motor, safe_stop]")
	for kind, c := range map[string]struct {
		services int
		proved   Stage
	}{"": {2, AtCheck}, "flooded": {2, AtCheck}, "agm": {1, AtClose}} {
		l := openSwitch(t)
		l.lib = lib
		if kind != "" {
			l.events[0].Intake.LabelText = map[string]string{"chemistry": kind}
		}
		p := l.choose("10.00", "new-switch").approved("10", "USD").ticks("new-switch").safe("spark-lead", "off", "fuel", "off").read("motor", "11.1").read("held", "11.3").seen("turns", "turns").where()
		require.Equal(t, AtService, p.Stage, kind)
		require.Len(t, p.Services, c.services, kind)
		p = l.leave().where()
		require.Equal(t, c.proved, p.Stage, kind)
		facts, err := job.Fold(l.events)
		require.NoError(t, err)
		require.Equal(t, c.proved == AtClose, len(SafetyOf(p.System, facts)) == 0)
	}
}

// A tree goes by what such a machine has not as by what could not be tested.
func TestATreeGoesByWhatAMachineHasNot(t *testing.T) {
	l := begin(t)
	l.lib = library(t, "pump", "hand back: [safe_stop]", "hand back: [safe_stop, turns]\nnot for:\n  - {label: chemistry, says: [agm], leaves out: [turns]}")
	l.read("rest", "12.8").read("held", "11.3").read("motor", "11.0").safe("spark-lead", "off", "fuel", "off")
	l.waitsFor("turns")
	l.events[0].Intake.LabelText = map[string]string{"chemistry": "agm"}
	require.Equal(t, AtVerdict, l.where().Stage)
}
