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

// Whatever is said, no line is wider than the face and nothing is lost.
func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`-|-?[0-9]{1,3}|[a-z]{1,12}|[a-z]{1,6}-|[a-z]{1,6}-[a-z]{1,6}`), 1, 60).Draw(t, "words")
		lead := strings.Repeat(" ", rapid.IntRange(0, 6).Draw(t, "lead"))
		lines := wrap(lead+strings.Join(words, " "), 30)
		for _, l := range lines {
			require.LessOrEqual(t, ansi.StringWidth(l), 30)
			require.True(t, strings.HasPrefix(l, lead))
		}
		require.Equal(t, words, strings.Fields(strings.Join(lines, " ")))
	})
}

func TestWhatIsSaidIsHarmlessAndSpoken(t *testing.T) {
	var out bytes.Buffer
	New(strings.NewReader(""), &out).say("\x1b[31mred\x1b[0m 12.3 +- 0.1 V\x07")
	require.Equal(t, "red 12.3 plus or minus 0.1 V\n", out.String())
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
	f.say("hello")
	f.say("again")
	require.Error(t, f.err)
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("pipe is gone") }
