package tree

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

func TestKeptComesToTheSameAsLoad(t *testing.T) {
	if raced {
		t.Skip("the race detector takes a minute for it; nothing runs beside here")
	}
	files := shipped(t)
	kept := NewKept()
	kept.Keep(files)
	changed := slices.Clone(files)
	i := slices.IndexFunc(changed, func(f source.File) bool { return strings.Contains(f.Text, "\nbegin: ") })
	changed[i].Text = strings.Replace(changed[i].Text, "\nbegin: ", "\nbegin: not-", 1)

	for range 2 { // what was kept is as it was after a library was built of it
		want, wantIssues := Load(files)
		got, issues := kept.Load(files)
		require.Equal(t, wantIssues, issues)
		require.Equal(t, want.Digest, got.Digest)
		require.Equal(t, want.Trees, got.Trees)
		require.Equal(t, want.Repairs, got.Repairs)

		want, wantIssues = Load(changed)
		got, issues = kept.Load(changed)
		require.NotEmpty(t, issues)
		require.Equal(t, wantIssues, issues)
		require.Equal(t, want.Digest, got.Digest)
	}
}

// What is opened without the checks is the same library.
func TestOpenComesToTheSameAsLoad(t *testing.T) {
	files := shipped(t)
	want, issues := Load(files)
	require.NoError(t, issues.Err())
	got, issues := Open(files)
	require.NoError(t, issues.Err())
	require.Equal(t, want.Digest, got.Digest)
	require.Equal(t, want.Trees, got.Trees)
	require.Equal(t, want.Repairs, got.Repairs)
	require.Len(t, got.Systems, len(want.Systems))
	for id, s := range want.Systems {
		require.Equal(t, s.HandBack, got.Systems[id].HandBack)
		require.Len(t, got.Systems[id].Tests, len(s.Tests))
		require.Len(t, got.Systems[id].Circuit.Parts, len(s.Circuit.Parts))
	}
}
