package app

import (
	"io"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/casefile"
	"benchlead/diag/walk"
)

// disagreements are cases in which the program neither reaches the expert's
// conclusion nor asks for what he asks for, each with the reason. The test
// fails when one of them agrees after all, so the list can't rot.
var disagreements = map[string]string{
	// The expert calls the battery good because it starts the machine and reads
	// 13.0 V. The program takes 13.0 V at rest for surface charge or a charger
	// still at work, and holds back until a load says so: too close, not wrong.
	"charger-green-at-once-13v0": "a full-looking rest reading clears nothing without a load",
}

// Every case of testdata/cases is judged and held against what an expert
// concludes, which was written down before. No good part may be condemned.
func TestCasesAgreeWithTheExpert(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("..", "..", "..", "testdata", "cases", "*.yaml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 20)
	require.LessOrEqual(t, float64(len(strange)), (1-leastAgree)*float64(len(names)))
	notRaced(t)
	p := &program{
		streams: Streams{Out: io.Discard, Err: io.Discard}, env: testEnv(filepath.Join(t.TempDir(), "none.db")),
		now: func() int64 { return 1_700_000_000_000_000 },
	}
	for _, name := range names {
		id := strings.TrimSuffix(filepath.Base(name), ".yaml")
		t.Run(id, func(t *testing.T) {
			j, err := p.judge(t.Context(), name)
			require.NoError(t, err)
			require.NotNil(t, j.file.Expect)
			want := j.file.Expect
			found := foundIn(j.pos.Verdict)
			for _, good := range want.Good {
				require.NotContains(t, found, good, "condemned, and the expert holds it to be good or not shown")
			}
			asks := asked(j)
			agrees := reaches(want, found, j.pos.Verdict) || slices.ContainsFunc(want.Asks, func(a string) bool { return slices.Contains(asks, a) })
			why, listed := disagreements[id]
			t.Logf("found %v, want %v; asks %v, want %v; agrees %v", found, want.Found, asks, want.Asks, agrees)
			require.Equal(t, !listed, agrees, "listed as disagreeing because: %s", why)
			suspectsAgree(t, id, j)
		})
	}
}

// strange are cases in which neither the first suspect, nor one that nothing tells apart
// from it, nor one of the tests that would tell most is what the expert names, each with
// the reason.
var strange = map[string]string{
	// Everything before the solenoid may be open. The expert reads at the solenoid's
	// trigger, at the end of the chain; the suspects begin at the fuse, which fails more
	// often than any one switch and is looked at in a minute.
	"silent-start-kill-wire-tests-mislead": "it splits the start wires at the fuse, not at the trigger",
	// 12 V on a starter that stands. The suspects hold an open starter for likelier than
	// a lost ground of the starter, which comes second; the expert proves the ground first.
	"starter-has-12v-wont-spin": "an open starter is commoner than a bad joint under it",
	// 12.86 V on a trigger wire with nothing connected tells next to nothing of a silent
	// machine, and what is left is how common things are. The expert reads it loaded.
	"trigger-12v86-open-nothing-connected": "one reading without a load: the commonest cause leads",
}

// leastAgree is the share of cases in which the suspects must agree with the expert.
const leastAgree = 0.8

// suspectsAgree holds what the suspects say against the expert: his conclusion leads
// them, or what he asks for is among what would tell most. No good part is named.
func suspectsAgree(t *testing.T, id string, j *judged) {
	t.Helper()
	want, c := j.file.Expect, j.says
	leads, asks := []string{}, []string{}
	for i, s := range c.Suspects {
		if i == 0 || slices.Contains(c.Alike, s.Title) {
			leads = append(leads, s.Faults...)
		}
		t.Logf("suspect: %s %.0f %%: %s", s.Name(), 100*s.P, s.Why)
	}
	for _, o := range c.Tests {
		asks = append(asks, o.Offer.Test.ID)
	}
	for _, a := range c.Again {
		asks = append(asks, a.Test.ID)
	}
	if c.Named {
		for _, good := range want.Good {
			require.NotContains(t, c.Suspects[0].Faults, good, "named, and the expert holds it to be good or not shown")
		}
	}
	shown := slices.Concat(want.Found, want.Suspects)
	agrees := slices.ContainsFunc(leads, func(f string) bool { return slices.Contains(shown, f) }) ||
		slices.ContainsFunc(want.Asks, func(a string) bool { return slices.Contains(asks, a) }) ||
		len(shown) == 0 && len(c.Suspects) > 0 && len(c.Suspects[0].Faults) == 0
	why, listed := strange[id]
	t.Logf("leads %v, want %v; tells most %v, want %v; agrees %v", leads, shown, asks, want.Asks, agrees)
	require.Equal(t, !listed, agrees, "listed as disagreeing because: %s", why)
}

func foundIn(v walk.Verdict) []string {
	out := []string{}
	for _, f := range v.Found {
		out = append(out, f.Fault.ID)
	}
	return out
}

// reaches says whether all that the expert finds is found, and what he clears
// is cleared, when he concludes anything.
func reaches(want *casefile.Expect, found []string, v walk.Verdict) bool {
	if len(want.Found)+len(want.Cleared) == 0 {
		return false
	}
	cleared := []string{}
	for _, c := range v.Cleared {
		cleared = append(cleared, c.Fault.ID)
	}
	for _, f := range want.Found {
		if !slices.Contains(found, f) {
			return false
		}
	}
	for _, c := range want.Cleared {
		if !slices.Contains(cleared, c) {
			return false
		}
	}
	return true
}

// asked are the tests that the judgement asks for: the next one, those that
// would tell where a reading can't, and those that a set-aside reading needs.
func asked(j *judged) []string {
	var out []string
	if j.pos.Test != nil {
		out = append(out, j.pos.Test.ID)
	}
	for _, u := range j.pos.Verdict.Unclear {
		if u.Take != nil {
			out = append(out, u.Take.ID)
		} else {
			out = append(out, u.Test.ID)
		}
	}
	for _, a := range j.file.Aside {
		if a.Test != "" {
			out = append(out, a.Test)
		}
	}
	return out
}
