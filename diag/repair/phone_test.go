package repair

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// Two lines to read out, in plain words, none wider than 70 characters.
func TestPhone(t *testing.T) {
	o := offersFor(t, edited(t, used...), Choices{}, "pack.no-output")
	require.Equal(t, []string{"What is wrong: the pack gives nothing.", "The repair: 29.50 USD with tax; we have the parts."}, o.Phone)
	o = offersFor(t, edited(t), Choices{}, "pack.no-output", "ground.lossy")
	require.Equal(t, []string{
		"What is wrong: the pack gives nothing; the ground cable loses volts.",
		"Convert to rope start: 96.38 USD with tax; the parts come in 3 days.",
	}, o.Phone)
	o = offersFor(t, edited(t), Choices{}, "pack.no-output", "ground.lossy", "lever.bypassed")
	require.Equal(t, "3 things are wrong, the first: the pack gives nothing.", o.Phone[0])
	o = offersFor(t, edited(t), Choices{}, "ground.lossy")
	require.Equal(t, "The repair: 12.00 USD; no part is needed.", o.Phone[1])
	o = offersFor(t, nil, Choices{}, "pack.no-output")
	require.Equal(t, "It takes about 10 minutes of work; we have no price yet.", o.Phone[1])
	o = offersFor(t, edited(t), Choices{})
	require.Equal(t, []string{"We have not found anything wrong so far.", "We have to measure more before we can name a price."}, o.Phone)
}

// Titles as long as anybody may write them are cut at a word.
func TestPhoneLinesAreNeverTooWide(t *testing.T) {
	lib, sys := bench()
	long := strings.Repeat("schaltgerät ", 12)
	sys.Fault("pack.no-output").Title = long
	lib.Repairs["rope-start"].Title = long
	delete(lib.Repairs, "new-pack")
	o, err := Paths(lib, sys, verdict(sys, "pack.no-output", "ground.lossy"), edited(t, `"45.00"`, `"999999.00"`), decimal.Zero, Choices{})
	require.NoError(t, err)
	for _, line := range o.Phone {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 70, line)
		require.True(t, utf8.ValidString(line))
	}
	require.True(t, strings.HasSuffix(o.Phone[0], "schaltgerät..."), o.Phone[0])
	require.Contains(t, o.Phone[1], "the parts come in 3 days.")
}
