package ui_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// A line of several answers is recorded whole or not at all where one of them is none.
func TestALineOfSeveralAnswersIsLookedAtBeforeAnyIsRecorded(t *testing.T) {
	for line, says := range map[string]string{
		"rest 12,62; charger 13.9; batt_held 9.1": `there is no test "batt_held" here`,
		"rest 12,62; charger 13.9 batt_held 9.1":  `there is no test "batt_held" here`,
		"rest 12,62; charger 13.9; hold 9.1":      `there is no test "hold" here; did you mean held?`,
		"rest 12,62; charger twelve":              "charger: ",
		"rest 12,62; turns sideways":              "is none of",
	} {
		s := beginPump(t, bench(t))
		before := len(s.Events())
		reply, err := s.Enter(context.Background(), line)
		require.ErrorContains(t, err, says, line)
		require.ErrorContains(t, err, "Nothing of the line was recorded", line)
		require.Empty(t, reply.Rest, "the line stands as it was typed")
		require.Len(t, s.Events(), before, line)
	}
	s := beginPump(t, bench(t))
	enter(t, s, "rest 12,62; charger 13.9;")
	require.Len(t, s.Facts().Answers, 2)
}
