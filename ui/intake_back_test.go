package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
)

// ask goes on to a question by a word of its title, with what is usual, or the first
// choice, before it.
func ask(t *testing.T, in *ui.Intake, word string) ui.Question {
	t.Helper()
	for range 30 {
		q, ok := in.Question()
		require.True(t, ok, word)
		if len(q.Title) >= len(word) && q.Title[:len(word)] == word {
			return q
		}
		text := ""
		if q.Default == "" {
			text = "1"
		}
		require.NoError(t, in.Answer(text))
	}
	t.Fatalf("no question begins with %q", word)
	return ui.Question{}
}

// An answer that is gone back from stands to be kept; one that is taken back to what
// is usual leaves nothing behind.
func TestAnswersGoneBackFrom(t *testing.T) {
	in := ui.NewIntake(bench(t).Library)
	ask(t, in, "Machine")
	require.NoError(t, in.Answer("Green pump"))
	ask(t, in, "What is it worth")
	require.NoError(t, in.Answer("180"))
	require.Equal(t, "180", in.Result().Worth)
	for range 30 {
		if q, ok := in.Question(); ok && q.Title == "Machine, in your words" {
			require.Equal(t, "Green pump", q.Before)
			break
		}
		require.True(t, in.Back())
	}
	require.NoError(t, in.Answer(""))
	require.Equal(t, "180", ask(t, in, "What is it worth").Before, "later answers stand too")
	require.NoError(t, in.Answer("180"))
	require.Empty(t, in.Result().Machine)
	require.Equal(t, "180", in.Result().Worth)
	_, ok := in.Question()
	require.False(t, ok)
}
