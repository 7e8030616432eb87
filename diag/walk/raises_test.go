package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// The clamp is good to 2 % and 8 counts of 0.01 A. Amps that flow out are more than
// one; at 0 A that is twelve times what the clamp may be off.
func TestNoAmpsInTheChargingLeadAreNotABatteryThatFlowsOut(t *testing.T) {
	if raced {
		t.Skip("no goroutine is in it, and it takes a minute")
	}
	for reading, want := range map[string]bool{"0": false, "-0.3": false, "-0.99": false, "-1.2": true, "-5": true} {
		for _, system := range []string{"charge-regulated", "charge-diode"} {
			l := &log{t: t, lib: shipped(t)}
			l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
				System: system, Complaint: "no-charge", Celsius: 20, Meter: *l.lib.Meters["clamp"], Digest: l.lib.Digest,
			}})
			l.measured("charge_clamp", reading, l.lib.Systems[system].Test("charge_clamp").Function)
			r := l.where().Results["charge_clamp"]
			require.Equal(t, want, Dangerous(r), "%s %s: %v", system, reading, r.Chance)
		}
	}
}

// 2.40 V is the cut. Two hundredths above it a meter of 0.5 % can't tell, and below it it
// can't either, but dead is the likelier. A caution that doesn't ask for the likelier
// is shown on both sides.
func TestADangerThatStopsTheWorkIsTheLikeliest(t *testing.T) {
	for _, c := range []struct {
		caution       string
		below, beside bool
	}{{"basis: practice, likely: yes}", true, false}, {"basis: practice}", true, true}} {
		for reading, want := range map[string]bool{"2.39": c.below, "2.41": c.beside, "4.0": false} {
			l := begin(t)
			l.lib = library(t, "pump", "tell: Keep flames away., basis: practice}", "tell: Keep flames away., "+c.caution)
			l.read("rest", reading)
			r := l.where().Results["rest"]
			require.Equal(t, want, Dangerous(r), "%s %s: %v", c.caution, reading, r.Chance)
			require.Equal(t, want, l.where().Stage == AtDanger)
		}
	}
}
