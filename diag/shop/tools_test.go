package shop

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLacks(t *testing.T) {
	needs := []string{"meter", "wrenches", "torque wrench", "Lamp", "none", "torque wrench", "crimp tool"}
	require.Empty(t, Settings{}.Lacks(needs), "nobody said what there is")
	for name, c := range map[string]struct{ own, lacks []string }{
		"some": {[]string{"wrench", "lamps"}, []string{"torque wrench", "crimp tool"}},
		"all":  {[]string{"wrenches", "torque wrench", "lamp", "Crimp  Tools"}, nil},
		"none": {[]string{"hammer"}, []string{"wrenches", "torque wrench", "Lamp", "crimp tool"}},
	} {
		require.Equal(t, c.lacks, Settings{Tools: c.own}.Lacks(needs), name)
	}
}
