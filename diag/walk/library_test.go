package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// library loads a small library of testdata, in which each old text was changed to
// the new.
func library(t testing.TB, folder string, changes ...string) *tree.Library {
	t.Helper()
	return loaded(t, treetest.Change(t, treetest.Read(t, root, "testdata/trees/"+folder), changes...))
}

const root = "../.."

func loaded(t testing.TB, files []source.File) *tree.Library {
	t.Helper()
	lib, issues := tree.Load(files)
	for _, i := range issues {
		t.Log(i.Render(nil))
	}
	require.Empty(t, issues)
	return lib
}
