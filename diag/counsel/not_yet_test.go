package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// battery is what is said of buying one: the fault that a test decides first.
func (c Counsel) battery() (fault, take string) {
	for _, n := range c.NotYet {
		if n.Fault.Part == "battery-12v" {
			return n.Fault.ID, n.Take.ID
		}
	}
	return "", ""
}

// At rest 10.4 V is a shorted cell or a battery that is flat, and nothing has drawn yet; at
// 11.5 V it is flat, which a charge clears, and whether it holds then nobody knows.
func TestNoBatteryIsBoughtOnItsRestVoltsAlone(t *testing.T) {
	b := keyStart(t, "slow")
	for _, rest := range []string{"12.64", "12.2", "11.9", "11.5", "10.4"} {
		fault, take := b.starting("slow", "slow", map[string]string{"battery_rest": rest}).counsel().battery()
		require.NotEmpty(t, fault, rest)
		require.NotEqual(t, "battery_rest", take, rest)
	}
	c := b.starting("slow", "slow", map[string]string{"battery_rest": "11.5"}).counsel()
	fault, _ := c.battery()
	require.NotEqual(t, "battery.flat", fault, "that is shown, and is charged")

	// With the current flowing it is as sure as it gets: three quarters and more charged, and it collapses.
	l := b.starting("slow", "slow", map[string]string{"battery_rest": "12.64", "batt_held": "7.5", "ground_drop": "0.26", "pos_drop": "0.18", "sol_drop": "0.08", "stud_held": "6.8"})
	fault, _ = l.read("battery_load", "5.0").counsel().battery()
	require.Empty(t, fault, "it is shown")
}
