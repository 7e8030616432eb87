package line

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// At any width that holds the longest word no line is wider, and nothing is lost;
// without a width nothing is broken.
func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`-|-?[0-9]{1,3}|[a-z]{1,12}|[a-z]{1,6}-|[a-z]{1,6}-[a-z]{1,6}`), 1, 60).Draw(t, "words")
		width := rapid.IntRange(13, 120).Draw(t, "width")
		text := strings.Join(words, " ")
		lines := wrap(text, width)
		for _, l := range lines {
			require.LessOrEqual(t, ansi.StringWidth(l), width)
		}
		require.Equal(t, words, strings.Fields(strings.Join(lines, " ")))
		require.Equal(t, []string{text}, wrap(text, 0))
	})
}

// A terminal may be narrower than a word.
func TestAWordIsBrokenRatherThanLost(t *testing.T) {
	for width := 1; width < 13; width++ {
		lines := wrap("the spark_wire_off", width)
		for _, l := range lines {
			require.LessOrEqual(t, ansi.StringWidth(l), width)
		}
		require.Equal(t, "thespark_wire_off", strings.ReplaceAll(strings.Join(lines, ""), " ", ""))
	}
}

// What a screen reader passes over is said in words; what is to be typed stays as it is.
func TestWhatIsSaidIsHarmlessAndSpoken(t *testing.T) {
	for said, want := range map[string]string{
		"\x1b[31mred\x1b[0m 12.3 +- 0.1 V\x07":          "red 12.3 plus or minus 0.1 V.",
		"-0.05 V to 0.05 V (-0.1 V at most)":            "minus 0.05 V to 0.05 V (minus 0.1 V at most).",
		"A healthy machine reads 1 Mohm to 2.2 kohm":    "A healthy machine reads 1 megohm to 2.2 kilohm.",
		"30 mohm, then 3 ohm":                           "30 milliohm, then 3 ohm.",
		"None fitted - go on.":                          "None fitted: go on.",
		"The control - the rope's handle - is near":     "The control, the rope's handle, is near.",
		"Fit a pack + Fit a charger":                    "Fit a pack and Fit a charger.",
		"[ ] The guard is on":                           "The guard is on.",
		"1  Fit a battery: 49.90 USD, 20 min":           "1. Fit a battery: 49.90 USD, 20 minutes.",
		"  tell 2  Stop wire to block (3 min)":          "tell 2: Stop wire to block (3 minutes).",
		"Type the reading, in mV, or pass":              "Type the reading, in millivolts, or pass.",
		"Does it turn?: before yes":                     "Does it turn? before yes.",
		"Hold it 1 s, rest 10 min, then 2.5 h":          "Hold it 1 second, rest 10 minutes, then 2.5 hours.",
		"Stop wire (take stop_wire, by_hand).":          "Stop wire (take stop wire, by hand).",
		"benchlead walk --record my_jobs.db":            "benchlead walk --record my_jobs.db",
		"The record is my_jobs.db.":                     "The record is my_jobs.db.",
		"pass [why]     can't reach it":                 "pass [why]: can't reach it.",
		"12 V is right.":                                "12 V is right.",
		"12-volt lead, 2-pin":                           "12-volt lead, 2-pin.",
		"  benchlead report 1 --for tag --to tag1.html": "benchlead report 1 --for tag --to tag1.html",
		"two\nlines":           "two lines.",
		"Did you mean 12.6 V?": "Did you mean 12.6 V?",
		"":                     "",
	} {
		var out bytes.Buffer
		New(strings.NewReader(""), &out).Say(said)
		require.Equal(t, want+"\n", out.String())
	}
}

// A bar is no word: how likely it is goes on with what it is said of.
func TestABarIsNotDrawn(t *testing.T) {
	var out bytes.Buffer
	New(strings.NewReader(""), &out).all([]string{"  1  The pack is dead", "     #####.....  52 %, likely", "", "  2  Its fuse"})
	require.Equal(t, "1. The pack is dead: 52 %, likely.\n\n2. Its fuse.\n", out.String())
}

func TestReadingALine(t *testing.T) {
	for _, c := range []struct {
		name, in, want string
		err            error
	}{
		{"a line", "12.6\n", "12.6", nil},
		{"a line from another system", "12.6\r\n", "12.6", nil},
		{"nothing", "", "", ErrEnd},
		{"half a line is no answer", "12.", "", ErrEnd},
		{"far too long a line is refused whole", strings.Repeat("1", 3*longest) + "\n", "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := New(strings.NewReader(c.in), new(bytes.Buffer)).read()
			require.ErrorIs(t, err, c.err)
			require.Equal(t, c.want, got)
		})
	}
}

func TestAnErrorIsASentence(t *testing.T) {
	require.Equal(t, "Nothing was recorded.", sentence(errors.New("nothing was recorded")))
	require.Equal(t, "Did you mean this?", sentence(errors.New("did you mean this?")))
}

// A stream that breaks stops the face instead of going round for ever.
func TestAWriteThatFailsEndsTheFace(t *testing.T) {
	f := New(strings.NewReader("1\n1\n"), broken{})
	f.Say("hello")
	f.Say("again")
	require.Error(t, f.err)
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("pipe is gone") }
