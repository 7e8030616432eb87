package formula

import (
	"maps"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// The settings of the expression library are shared by all formulas, also by
// those that several goroutines compile: nothing may be left behind in them.
func TestCompileLeavesTheSettingsAlone(t *testing.T) {
	off := maps.Clone(restricted.Disabled)
	require.Contains(t, off, "now")
	require.Contains(t, off, "filter")
	var all sync.WaitGroup
	for _, text := range []string{"max(a, 2) / b", "a + b", "now", "filter(a, b)", "a +", "word == 'x' ? a : b"} {
		for range 4 {
			all.Go(func() {
				Compile(text, source.Origin{}, Names{
					Numbers: map[string]Dimension{"a": Plain, "b": Plain}, Words: map[string][]string{"word": {"x"}},
				}, Plain)
			})
		}
	}
	all.Wait()
	require.Equal(t, off, restricted.Disabled)
	require.Empty(t, restricted.Functions)
	require.Empty(t, restricted.Builtins)
	require.Empty(t, restricted.ConstFns)
	require.Empty(t, restricted.Visitors)
	require.Nil(t, restricted.EnvObject)
	require.Zero(t, restricted.NtCache)
}
