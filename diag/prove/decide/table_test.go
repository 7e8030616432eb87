package decide

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// someTable is 40 cases of which 36 were named exactly, in 240 minutes and 200 tests.
func someTable() Table {
	r := Row{System: "s", World: Worlds[0], Cases: 40, Exact: 36, Back: 2, Sure: 35, SureWrong: 1, Tests: 200, Minutes: 240}
	return NewTable(Setting{Machines: 100, Cases: 40, Seed: 7}, []Row{r})
}

func TestATableIsReadAsItWasWritten(t *testing.T) {
	was := someTable()
	require.Equal(t, TableRow{System: "s", World: "one-fault", Cases: 40, Exact: 36, Back: 2, Sure: 35, SureWrong: 1, Minutes: 6, Tests: 5}, was.Rows[0])
	var out bytes.Buffer
	require.NoError(t, WriteTable(&out, was))
	is, err := ReadTable(bytes.NewReader(out.Bytes()))
	require.NoError(t, err)
	require.Equal(t, was, is)

	_, err = ReadTable(strings.NewReader("a shopping list\n"))
	require.ErrorContains(t, err, "line 1")
	_, err = ReadTable(strings.NewReader(out.String() + "s one-fault cases many\n"))
	require.ErrorContains(t, err, "line 3")
}

func TestWhatHasBecomeWorseIsSaid(t *testing.T) {
	for says, change := range map[string]func(*TableRow){
		"":                                     func(*TableRow) {},
		"s one-fault: exact 35, was 36":        func(r *TableRow) { r.Exact-- },
		"s one-fault: back 3, was 2":           func(r *TableRow) { r.Back++ },
		"s one-fault: sure and wrong 2, was 1": func(r *TableRow) { r.SureWrong++ },
		"s one-fault: minutes 6.2, was 6.0":    func(r *TableRow) { r.Minutes = 6.2 },
		"s one-more: it was not there before|s one-fault: it is no longer there": func(r *TableRow) { r.World = "one-more" },
	} {
		is := someTable()
		change(&is.Rows[0])
		require.Equal(t, says, strings.Join(is.Worse(someTable()), "|"))
	}
	better := someTable()
	better.Rows[0].Exact, better.Rows[0].Back, better.Rows[0].SureWrong, better.Rows[0].Minutes = 40, 0, 0, 3
	require.Empty(t, better.Worse(someTable()))
}

func TestNoTwoWorldsShareAName(t *testing.T) {
	had := map[string]bool{}
	for _, w := range Worlds {
		require.False(t, had[w.ID], w.ID)
		require.NotContains(t, w.ID, " ")
		had[w.ID] = true
	}
}
