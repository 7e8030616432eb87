package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/app"
)

// Every verb has a page; lines that the help sets in keep their ends.
func TestEveryVerbHasAPage(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, write([]string{dir}))
	page := func(name string) string {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return string(data)
	}
	for _, cmd := range app.Command().Commands() {
		require.Contains(t, page("benchlead-"+cmd.Name()+".1"), ".SH NAME")
	}
	require.Contains(t, page("benchlead-report.1"), ".EX\n  --for bench")
	require.NotContains(t, page("benchlead-walk.1"), ".EX\nThe bench")
	main := page("benchlead.1")
	for _, says := range []string{".SH EXIT STATUS", "BENCHLEAD_RECORD", "BENCHLEAD_CACHE", ".SH FILES"} {
		require.Contains(t, main, says)
	}
	require.Error(t, write(nil))
}
