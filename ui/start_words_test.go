package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
)

// What is typed to look for a complaint is what the owner said: it stays with the job.
// One word is no sentence of the owner's, and a letter is none to look for.
func TestTheOwnersWordsAreKept(t *testing.T) {
	for typed, want := range map[string]string{"goes flat standing overnight": "goes flat standing overnight", "clicks": ""} {
		in := ui.NewIntake(shippedLibrary(t))
		require.NoError(t, in.Answer(typed))
		require.Empty(t, in.Result().Words, "no machine is chosen yet")
		require.NoError(t, in.Answer("1"))
		require.Equal(t, want, in.Result().Words)
	}
	in := ui.NewIntake(shippedLibrary(t))
	require.NoError(t, in.Answer("goes flat standing"))
	require.NoError(t, in.Answer("1"))
	require.True(t, in.Back())
	require.True(t, in.Back())
	require.NoError(t, in.Answer("no-crank"))
	require.NoError(t, in.Answer("key-start-12v"))
	require.Empty(t, in.Result().Words, "something else is wrong after all")
	require.ErrorContains(t, ui.NewIntake(shippedLibrary(t)).Answer("h"), "too short")
}
