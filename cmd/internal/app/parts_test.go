package app

import (
	"encoding/json"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
)

var update = flag.Bool("update", false, "write the outline of the trees anew")

// The outline that is built in is that of the trees beside it, in which nothing is
// wrong.
func TestOutlineIsOfTheTrees(t *testing.T) {
	files, issues, err := readTrees(trees.Files, "trees")
	require.NoError(t, err)
	require.Empty(t, issues)
	_, outline, issues := tree.LoadOutlined(files)
	require.NoError(t, issues.Err())
	text, err := json.MarshalIndent(outline, "", "\t")
	require.NoError(t, err)
	text = append(text, '\n')
	if *update {
		require.NoError(t, os.WriteFile(filepath.Join("..", "..", "..", "trees", "outline.json"), text, 0o644))
		return
	}
	require.Equal(t, string(text), string(trees.Outline), "the trees were changed: make outline")
	require.NotNil(t, builtInParts(), "the trees are read whole at each start")
}

// builtInFiles are the trees that are built in, and no others may be opened as those.
func builtInFiles(t testing.TB) []source.File {
	files, issues, err := readTrees(trees.Files, "trees")
	require.NoError(t, err)
	require.Empty(t, issues)
	return files
}

// A text that was changed since the outline was written is never taken for checked.
func TestPartsOfChangedTreesAreNotOpened(t *testing.T) {
	files := builtInFiles(t)
	require.NotNil(t, newParts(files, trees.Outline))
	more := slices.Clone(files)
	more[3].Text = "# \n" + more[3].Text
	require.Nil(t, newParts(more, trees.Outline), "a comment more")
	more = append(slices.Clone(files), source.File{Name: "trees/zz.yaml", Text: files[0].Text})
	require.Nil(t, newParts(more, trees.Outline), "a file more")
	require.Nil(t, newParts(files[1:], trees.Outline), "a file less")
	require.Nil(t, newParts(files, []byte("{")))
	require.Nil(t, newParts(files, nil))
}

// However many systems are asked for, few are held, and each comes whole again.
func TestFewSystemsAreHeld(t *testing.T) {
	p := newParts(builtInFiles(t), trees.Outline)
	require.NotNil(t, p)
	require.Nil(t, p.system("steam-engine"))
	for range 2 {
		for _, h := range p.outline.Systems {
			lib := p.system(h.ID)
			require.NotEmpty(t, lib.Systems[h.ID].Tests)
			require.Same(t, lib, p.system(h.ID), "it is held while it is used")
			require.LessOrEqual(t, len(p.opened), mostOpened)
		}
	}
}

// A shop's own trees are checked when they are new or were changed, and opened in
// parts after that. What is kept of them may be lost or damaged.
func TestOwnTreesAreCheckedOnce(t *testing.T) {
	folder, cache := t.TempDir(), t.TempDir()
	copyTrees(t, pumpTrees, folder)
	p := &program{treeDir: folder, env: func(name string) string { return map[string]string{"BENCHLEAD_CACHE": cache}[name] }}
	p.streams.Err = io.Discard
	inParts := func() bool {
		b, err := p.lists()
		require.NoError(t, err)
		require.NotNil(t, b.Of("spray-pump").Systems["spray-pump"].Test("rest"), "either way it can be worked with")
		return b.Open != nil
	}
	require.False(t, inParts(), "nobody has checked these")
	require.True(t, inParts())

	kept, err := filepath.Glob(filepath.Join(cache, "*.trees"))
	require.NoError(t, err)
	require.Len(t, kept, 1)
	require.NoError(t, os.WriteFile(kept[0], []byte(`{"digest":`), 0o600))
	require.False(t, inParts(), "what was kept is damaged")
	require.True(t, inParts())

	name := filepath.Join(folder, "broken.yaml")
	require.NoError(t, os.WriteFile(name, []byte("tree: a\n"), 0o600))
	_, err = p.lists()
	require.Error(t, err)
	_, err = p.lists()
	require.Error(t, err, "what is wrong is never kept as right")
	require.NoError(t, os.Remove(name))
	require.True(t, inParts(), "they are again what was checked")
}

func copyTrees(t *testing.T, from, to string) {
	t.Helper()
	require.NoError(t, os.CopyFS(to, os.DirFS(from)))
}

// What a start reads of the built-in trees: their digest, which says that they were
// checked, and the lists.
func BenchmarkOpenBuiltIn(b *testing.B) {
	for b.Loop() {
		newParts(builtInFiles(b), trees.Outline)
	}
}

// The largest system, opened for a job.
func BenchmarkOpenSystem(b *testing.B) {
	files := builtInFiles(b)
	for b.Loop() {
		b.StopTimer()
		p := newParts(files, trees.Outline)
		b.StartTimer()
		p.system("starter-generator")
	}
}
