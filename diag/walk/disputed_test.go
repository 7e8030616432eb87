package walk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// dry is a pump with its switch open by two readings: volts at the battery, none at the motor.
func dry(t *testing.T) *log {
	return begin(t).safe("spark-lead", "off", "fuel", "off").read("rest", "12.9").read("held", "11.5").read("motor", "0.1")
}

func TestADisputedReadingProvesNothingUntilAThirdAgreesWithOneOfTheTwo(t *testing.T) {
	require.Equal(t, []string{"sw.open"}, found(dry(t).where().Verdict))
	for _, tc := range []struct {
		third string
		found []string
		band  string
		count int
	}{
		{"0.1", []string{"sw.open"}, "none", 2}, // the first was right
		{"11.0", []string{}, "there", 2},        // the second was
	} {
		l := dry(t).read("motor", "11.0")
		p := l.waitsFor("motor")
		require.True(t, p.Disputed)
		require.False(t, p.Verdict.Finished)
		require.Empty(t, found(p.Verdict), "neither reading condemns")
		require.NotContains(t, cleared(p.Verdict), "sw.open", "nor does either clear")
		partitioned(t, p)

		p = l.read("motor", tc.third).where()
		require.False(t, p.Disputed)
		require.Equal(t, tc.found, found(p.Verdict))
		require.Equal(t, tc.band, p.Results["motor"].Best())
		require.Equal(t, tc.count, p.Results["motor"].Count)
		require.False(t, p.Results["motor"].Astray)
	}
}

// 0.1 V and 0.3 V differ by more than a meter's counts, and both are no volts at all.
func TestReadingsThatDifferAndSayTheSameProveIt(t *testing.T) {
	p := dry(t).read("motor", "0.3").where()
	require.True(t, p.Results["motor"].Astray)
	require.False(t, p.Disputed)
	require.Equal(t, []string{"sw.open"}, found(p.Verdict))
}

func TestADisputeIsAskedTwiceMoreAndThenLeftInTheVerdict(t *testing.T) {
	l := dry(t).read("motor", "11.0").read("motor", "6.0")
	require.True(t, l.waitsFor("motor").Disputed)
	p := l.read("motor", "9.0").where()
	require.False(t, p.Disputed)
	require.Empty(t, found(p.Verdict))
	require.Equal(t, "motor", p.Verdict.Unclear[0].Test.ID)
	require.Contains(t, p.Verdict.Unclear[0].Why, "disagree")

	p = l.pass("motor").where()
	require.False(t, p.Disputed)
	require.Empty(t, found(p.Verdict))
}

// Of two readings that disagree the dangerous one is heeded, whichever came last.
func TestADisputedDangerIsHeeded(t *testing.T) {
	l := begin(t).read("rest", "0.3")
	require.Equal(t, AtDanger, l.where().Stage)
	require.Equal(t, AtDanger, l.read("rest", "12.9").where().Stage)
	require.Empty(t, l.read("rest", "12.9").where().Danger, "two that agree settle it")
}
