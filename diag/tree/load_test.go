package tree

import (
	"slices"
	"testing"

	"benchlead/diag/measure"
)

const minimalFolder = "../../testdata/trees/minimal"

func minimal(t testing.TB) []byte { return nil }

func TestMin(t *testing.T) {
	files, _ := readFolder(t, minimalFolder)
	lib, issues := Load(files)
	if len(issues) > 0 {
		t.Fatal(rendered(files, issues))
	}
	_ = lib
	_ = slices.Clone[[]int]
	_ = measure.Ohms
}
