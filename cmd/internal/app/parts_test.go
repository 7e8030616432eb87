package app

import (
	"encoding/json"
	"flag"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

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

// A text that was changed since the outline was written is never taken for checked.
func TestPartsOfChangedTreesAreNotOpened(t *testing.T) {
	from := fstest.MapFS{}
	files, _, err := readTrees(trees.Files, "trees")
	require.NoError(t, err)
	for _, f := range files {
		from[strings.TrimPrefix(f.Name, "trees/")] = &fstest.MapFile{Data: []byte(f.Text)}
	}
	require.NotNil(t, newParts(from, trees.Outline))
	for name, text := range map[string]string{"a byte more": "shared/spark-stop.yaml", "a file more": "new.yaml"} {
		changed := maps.Clone(from)
		changed[text] = &fstest.MapFile{Data: append([]byte("# \n"), from["shared/spark-stop.yaml"].Data...)}
		require.Nil(t, newParts(changed, trees.Outline), name)
	}
	require.Nil(t, newParts(from, []byte("{")))
	require.Nil(t, newParts(from, nil))
}

// However many systems are asked for, few are held, and each comes whole again.
func TestFewSystemsAreHeld(t *testing.T) {
	p := newParts(trees.Files, trees.Outline)
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

// What a start reads of the built-in trees: their digest, which says that they were
// checked, and the lists.
func BenchmarkOpenBuiltIn(b *testing.B) {
	for b.Loop() {
		newParts(trees.Files, trees.Outline)
	}
}

// The largest system, opened for a job.
func BenchmarkOpenSystem(b *testing.B) {
	for b.Loop() {
		b.StopTimer()
		p := newParts(trees.Files, trees.Outline)
		b.StartTimer()
		p.system("starter-generator")
	}
}
