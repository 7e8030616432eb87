package tree

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What serves nothing is remarked where it stands; what was written right is not.
func TestWhatNothingUsesIsRemarked(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	require.Empty(t, Remarks(lib))

	texts := minimalTexts(t)
	files, _ := readFolder(t, minimalFolder)
	before, issues := Load(files)
	require.Empty(t, issues)
	require.Empty(t, Remarks(before))
	rig := "systems/rig.yaml"
	texts[rig] = strings.Replace(texts[rig], "points:\n", "points:\n  - {point: lamp.cap, title: Cap of the lamp}\n", 1)
	texts[rig] = strings.Replace(texts[rig], "tests:\n", "tests:\n  - {test: smell, title: Smell, see: Smell it., state: \"off\", choices: [burnt, clean]}\n", 1)
	texts["words.yaml"] = "words:\n  - {word: gudgeon, means: A pin., basis: practice}\n  - {word: fuse, means: It melts., basis: practice}\n"
	lib, _ = loadTexts(t, texts)
	var got []string
	for _, i := range Remarks(lib) {
		got = append(got, i.String())
	}
	require.Equal(t, []string{
		`systems/rig.yaml:19:13: no lead is ever put on the point "lamp.cap", and the circuit has no part there [nothing-uses-it]`,
		`systems/rig.yaml:42:12: no tree, repair, hand back or worked-out test asks the test "smell" [nothing-uses-it]`,
		`words.yaml:2:12: the word "gudgeon" stands in no test, so nobody is ever told what it means [nothing-uses-it]`,
	}, got)
}
