package walk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheTestThatDecidesAnOpenFaultIsNamed(t *testing.T) {
	next := func(l *log, fault string) string {
		if test := Deciding(l.lib, l.where(), fault); test != nil {
			return test.ID
		}
		return ""
	}
	l := begin(t)
	require.Equal(t, "held", next(l, "bat.weak"), "it finds it and clears it by itself")
	require.Equal(t, "charger", next(l, "chg.dead"))
	require.Equal(t, "motor", next(l, "sw.open"), "one answer clears it, two would find it")
	l.read("held", "9.0").read("motor", "0.1")
	require.Empty(t, next(l, "sw.open"), "a battery that sags says nothing of the switch, and the motor was read")
	require.Equal(t, "turns", next(l, "mot.open"), "the finding wants volts at the motor, which aren't there; its turning would clear it")
	l.pass("turns")
	require.Empty(t, next(l, "mot.open"))
}
