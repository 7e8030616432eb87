// Package treetest reads trees for tests, and changes them. Only tests import it.
package treetest

import (
	"cmp"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// Read opens every YAML file of a folder but for demo/. root is the way to the
// project's root, and folder is named as from there; so are the files.
func Read(t testing.TB, root, folder string) []source.File {
	t.Helper()
	var files []source.File
	err := filepath.WalkDir(filepath.Join(root, folder), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && d.Name() == "demo" {
			return cmp.Or(err, fs.SkipDir)
		}
		if d.IsDir() || !strings.HasSuffix(path, ".yaml") {
			return nil
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		name, err := filepath.Rel(root, path)
		require.NoError(t, err)
		file, issues := source.Open(filepath.ToSlash(name), data)
		require.Empty(t, issues)
		files = append(files, *file)
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, files, "no trees in %s", folder)
	return files
}

// Change puts in the place of each old text the new one. A text that does not
// stand in the files just once is not what the test means, and fails it.
func Change(t testing.TB, files []source.File, changes ...string) []source.File {
	t.Helper()
	for i := 0; i+1 < len(changes); i += 2 {
		was := 0
		for k := range files {
			was += strings.Count(files[k].Text, changes[i])
			files[k].Text = strings.Replace(files[k].Text, changes[i], changes[i+1], 1)
		}
		require.Equal(t, 1, was, "%q stands %d times in the files", changes[i], was)
	}
	return files
}
