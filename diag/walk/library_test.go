package walk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// library loads a small library of testdata.
func library(t testing.TB, folder string, changes ...string) *tree.Library {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "trees", folder, "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	return loaded(t, names, changes...)
}

// loaded loads files in which each old text was changed to the new.
func loaded(t testing.TB, names []string, changes ...string) *tree.Library {
	t.Helper()
	change := strings.NewReplacer(changes...)
	var files []source.File
	for _, name := range names {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		file, issues := source.Open(filepath.ToSlash(name), []byte(change.Replace(string(data))))
		require.Empty(t, issues)
		files = append(files, *file)
	}
	lib, issues := tree.Load(files)
	for _, i := range issues {
		t.Log(i.Render(nil))
	}
	require.Empty(t, issues)
	return lib
}
