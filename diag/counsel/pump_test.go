package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/diag/walk"
	"benchlead/trees/treetest"
)

const root = "../.."

// The machine of these tests is the small pump: a battery, a switch and a motor in a
// row, and a charger beside them. The circuit says how common its faults are: a weak
// battery 3, a dead charger 2, an open switch 2, an open motor 1. Dead comes one with a
// weak battery, an open switch or an open motor, and in one of twenty the fault is gone
// on the bench: 0.95 times 3/6, 2/6 and 1/6, and 0.05.
//
// Held, with 2.02 ohm outside: a weak battery (1.6 to 4.1 ohm inside) shows 7.1 to
// 4.2 V, and 7.0 to 4.2 V are at the motor; one behind an open switch or motor shows its
// 12.7 V; a sound one 12.1 V, and 12.0 V are at the motor. Behind an open switch stands
// nothing, and before an open motor 12.7 V.
const (
	weakest = 0.95 * 3 / 6
	switchs = 0.95 * 2 / 6
	motors  = 0.95 * 1 / 6
	goneNow = 0.05
)

// bench is a library, and the cloud of one complaint.
type bench struct {
	t     testing.TB
	lib   *tree.Library
	cloud *suspect.Cloud
}

// pump is the bench for a pump that is dead, with the files changed.
func pump(t testing.TB, changes ...string) bench {
	t.Helper()
	return pumpThat(t, "dead", changes...)
}

func pumpThat(t testing.TB, complaint string, changes ...string) bench {
	t.Helper()
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	files = treetest.Change(t, files, "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}")
	lib, issues := tree.Load(treetest.Change(t, files, changes...))
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["spray-pump"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	o := suspect.Options{Seed: 1, Machines: 100, Meter: *lib.Meters["test"]}
	cloud, err := suspect.Build(maker, complaint, o)
	require.NoError(t, err)
	cloud, err = cloud.Extend(maker, o)
	require.NoError(t, err)
	return bench{t, lib, cloud}
}

// flat are changes that make a pump whose battery comes in empty, at 0.05 V, when it is
// weak, and when the charger brings no amps (it shows its 14 V all the same). As it
// comes nothing tells the two apart, 3 to 2. Charged, both rest at 12.7 V; held, the weak
// one shows 7.1 to 4.2 V and stands, the other 12.1 V and turns, as if nothing were
// wrong. There is a stage for that.
var flat = []string{
	"set: {inside: was + severity}", `set: {rest_volts: "0.05", inside: was + severity}`,
	`set: {charger.volts: "0"}`, `set: {charger.amps: "0.01", rest_volts: "0.05"}`,
	"complaints:\n  - {complaint: dead, when",
	"stages:\n  - {stage: charged, title: After the battery was charged, work: [recharge], why: An empty battery hides what is wrong.}\n" +
		"complaints:\n  - {complaint: dead, when",
}

func flatPump(t testing.TB, changes ...string) bench {
	t.Helper()
	return pump(t, append(append([]string(nil), flat...), changes...)...)
}

// log is the events of a job, one after another.
type log struct {
	bench
	events []job.Event
}

// job begins one, with what the owner tells.
func (b bench) job(history ...string) *log {
	l := &log{bench: b}
	return l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "spray-pump", Complaint: "dead", Celsius: 20, Meter: *b.lib.Meters["test"], History: history, Digest: b.lib.Digest,
	}})
}

func (l *log) add(e job.Event) *log {
	e.Seq = int64(len(l.events)) + 1
	l.events = append(l.events, e)
	return l
}

func (l *log) read(test, volts string) *log { return l.add(reading(l.t, test, volts)) }

func reading(t testing.TB, test, volts string) job.Event {
	t.Helper()
	r, err := measure.Parse(volts, measure.DCVolts)
	require.NoError(t, err)
	return job.Event{Kind: job.KindRead, Read: &job.Read{Test: test, Reading: r}}
}

func (l *log) seen(test, choice string) *log {
	return l.add(job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: choice}})
}

func (l *log) pass(tests ...string) *log {
	for _, test := range tests {
		l.add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test, Why: "can't reach"}})
	}
	return l
}

func (l *log) did(work string, stales ...string) *log {
	return l.add(job.Event{Kind: job.KindDone, Done: &job.Done{Work: work, Stales: stales}})
}

// undo takes the event before back.
func (l *log) undo() *log {
	return l.add(job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: int64(len(l.events))}})
}

// counsel is what the suspects say of the job; with is that beside a shop's own jobs.
func (l *log) counsel() Counsel { return l.with(Shop{}) }

func (l *log) with(shop Shop) Counsel {
	l.t.Helper()
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	return Of(l.lib, facts, walk.Where(l.lib, facts), l.cloud, shop)
}

// p is how likely a fault is, 0 when it is not worth a line.
func (c Counsel) p(fault string) float64 {
	for _, f := range c.Faults {
		if f.ID == fault {
			return f.P
		}
	}
	return 0
}

// names are the suspects in a word each, in their order.
func (c Counsel) names() []string {
	var out []string
	for _, s := range c.Suspects {
		out = append(out, s.Name())
	}
	return out
}

// offered are the tests that would tell most, by id.
func (c Counsel) offered() []string {
	var out []string
	for _, t := range c.Tests {
		out = append(out, t.Test.ID)
	}
	return out
}

func (c Counsel) notYet() map[string]string {
	out := map[string]string{}
	for _, n := range c.NotYet {
		out[n.Part] = n.Take.ID
	}
	return out
}
