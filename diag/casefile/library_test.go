package casefile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// pump is the small library of testdata, an invented pump.
func pump(t testing.TB) *tree.Library {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "trees", "pump", "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	var files []source.File
	for _, name := range names {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		file, issues := source.Open(filepath.Base(name), data)
		require.Empty(t, issues)
		files = append(files, *file)
	}
	lib, issues := tree.Load(files)
	require.Empty(t, issues)
	return lib
}

// load reads a case; the lines are those of the file after its system.
func load(t testing.TB, lines ...string) (*Case, source.Issues) {
	t.Helper()
	text := strings.Join(append([]string{"system: spray-pump"}, lines...), "\n")
	return Load(source.File{Name: "case.yaml", Text: text}, pump(t))
}

// one loads a case with a single reading.
func one(t testing.TB, reading string) *Case {
	t.Helper()
	c, issues := load(t, "readings: ["+reading+"]")
	require.Empty(t, issues)
	return c
}
