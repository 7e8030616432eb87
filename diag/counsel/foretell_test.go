package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/suspect"
)

// foretelling is that of a test.
func (c Counsel) foretelling(t *testing.T, test string) Foretelling {
	t.Helper()
	for _, f := range c.Foretold {
		if f.Test.ID == test {
			return f
		}
	}
	require.Fail(t, "not foretold", test)
	return Foretelling{}
}

func (a Answer) p(name string) float64 {
	for _, s := range a.Suspects {
		if s.Name() == name {
			return s.P
		}
	}
	return 0
}

// Held, only a weak battery sags: 0.475 of all. After that it is sure. When it holds,
// 0.525 are left: the switch 0.3167, the motor 0.1583, gone 0.05.
func TestWhatEachAnswerMakesOfTheSuspectsIsForetold(t *testing.T) {
	c := pump(t).job().counsel()
	held := c.foretelling(t, "held")
	require.InDelta(t, 3, held.Minutes, 1e-9)
	require.Nil(t, held.After)
	require.Equal(t, []string{"holds", "sags"}, []string{held.Answers[0].Says, held.Answers[1].Says}, "the likelier first")
	holds, sags := held.Answers[0], held.Answers[1]
	require.InDelta(t, 1-weakest, holds.P, 1e-9)
	require.InDelta(t, weakest, sags.P, 1e-9)
	require.Len(t, sags.Suspects, 1)
	require.InDelta(t, 1, sags.p("bat.weak"), 1e-9)
	require.Equal(t, "sw.open", holds.Suspects[0].Name(), "the likeliest first")
	require.InDelta(t, switchs/(1-weakest), holds.p("sw.open"), 1e-9)
	require.InDelta(t, motors/(1-weakest), holds.p("mot.open"), 1e-9)
	require.InDelta(t, goneNow/(1-weakest), holds.p("gone while testing"), 1e-9)
}

// Of every test the answers come to 1, and what they make of each suspect to what it is
// now: that of whoever has not looked yet.
func TestWhatIsForetoldAddsUp(t *testing.T) {
	for _, c := range []Counsel{pump(t).job().counsel(), pump(t).job().read("rest", "12.7").counsel(), flatPump(t).job().read("rest", "0.05").counsel()} {
		require.NotEmpty(t, c.Foretold)
		require.InDelta(t, 1, sumOf(c.All), 1e-9)
		for _, f := range c.Foretold {
			sum, by := 0.0, map[string]float64{}
			for _, a := range f.Answers {
				sum += a.P
				require.InDelta(t, 1, sumOf(a.Suspects), 1e-9, "%s: %s", f.Test.ID, a.Says)
				for _, s := range a.Suspects {
					by[s.Name()] += a.P * s.P
				}
			}
			require.InDelta(t, 1, sum, 1e-9, f.Test.ID)
			for _, s := range c.All {
				require.InDelta(t, s.P, by[s.Name()], 1e-9, "%s: %s", f.Test.ID, s.Name())
			}
		}
	}
}

func sumOf(suspects []suspect.Suspect) float64 {
	sum := 0.0
	for _, s := range suspects {
		sum += s.P
	}
	return sum
}

// Empty, only what comes after charging tells something; its minutes are in it.
func TestATestAfterWorkIsForetoldAtItsStage(t *testing.T) {
	held := flatPump(t).job().read("rest", "0.05").counsel().foretelling(t, "held")
	require.Equal(t, "charged", held.After.ID)
	require.InDelta(t, 60+1, held.Minutes, 1e-9)
	var answers []string
	for _, a := range held.Answers {
		answers = append(answers, a.Says)
	}
	require.ElementsMatch(t, []string{"sags", "holds"}, answers)
}

// What is named already, and work after which nobody knows, leaves nothing to foretell.
func TestNothingIsForetoldWhereNoTestIsOffered(t *testing.T) {
	named := pump(t).job().read("held", "12.7").read("motor", "0").counsel()
	require.True(t, named.Named)
	require.Empty(t, named.Foretold)
	require.NotEmpty(t, named.All)
}
