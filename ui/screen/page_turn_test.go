package screen

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A key behind a reading in big figures only turns the page; a figure of the next
// reading isn't lost.
func TestAKeyBehindAReadingOnlyTurnsThePage(t *testing.T) {
	for key, want := range map[string]string{"c": "", "e": "", "?": "", "z": "", "1": "1"} {
		d := drive(t, bench(t, small))
		big(d)
		d.keys("12.6 <enter>")
		if d.answered == nil {
			require.FailNow(t, "no reading is shown")
		}
		metered := d.step.figure(keyOf('1'))
		d.keys(key)
		require.Nil(t, d.answered)
		require.Nil(t, d.over)
		if !metered {
			want = ""
		}
		require.Equal(t, want, d.input.text(), key)
	}
}

func keyOf(r rune) key { return key{name: string(r), char: r} }

// The list of jobs: q waits for Enter as in a job, and what is no number is said so.
func TestTheListOfJobsAsks(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Green pump")
	d.keys("q <enter> q")
	require.Equal(t, "q", d.input.text())
	require.Contains(t, d.View(), "Enter: leave the program")
	require.Equal(t, action{deed: quit}, d.press(key{name: "enter"}))
	for _, typed := range []string{"x", "0", "1x"} {
		d.keys("<esc> " + typed + " <enter>")
		require.Contains(t, d.wrong, `"`+typed+`" is no job's number`)
	}
}

// Services that are left out at once are told in one line.
func TestServicesLeftOutAtOnceAreOneLine(t *testing.T) {
	d := drive(t, bench(t, small))
	services(d)
	d.keys("c <enter>")
	require.Len(t, d.said, 1)
	require.Contains(t, d.said[0], "services left out")
}
