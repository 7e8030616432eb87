package app

import (
	"bytes"
	"context"
	"io"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui/line"
)

// listener types the next line when the face asks for one, and keeps what was said
// before it.
type listener struct {
	typed []string
	out   bytes.Buffer
	heard []string
}

func (l *listener) Read(p []byte) (int, error) {
	l.heard = append(l.heard, l.out.String())
	l.out.Reset()
	if len(l.typed) == 0 {
		return 0, io.EOF
	}
	next := l.typed[0]
	l.typed = l.typed[1:]
	return copy(p, next+"\n"), nil
}

// unspoken are signs and columns that are lost when a line is read aloud. What a unit
// is made of, and a number that is typed, may stand.
var unspoken = regexp.MustCompile(`[<>|~^_#{}\[\]]|\.\.\.\.|\+-| - |\S {2,}|(^| )-\d|[^\x20-\x7e]`)

// toType is what has to stand as it is typed: a command.
var toType = regexp.MustCompile(`^benchlead .*`)

// A whole job, with every view asked for at each kind of step, as who hears it would:
// sentences without signs or columns, and last what may be typed.
func TestAWholeJobCanBeHeard(t *testing.T) {
	typed, _ := wholeJob(t, withNewPack, newPackNewCharger)
	b := shippedBench(t)
	views := []string{"found", "left", "paths", "paths more", "why", "list", "suspects", "help", "machine", "machine 1", "take battery", "", "", "again"}
	l := &listener{}
	for _, line := range typed {
		l.typed = append(append(l.typed, views...), line)
	}
	s := openedAgain(t, b)
	require.NoError(t, line.New(l, &l.out).Walk(context.Background(), s))
	require.NotNil(t, s.Facts().Closed)
	require.Greater(t, len(l.heard), len(typed))
	for _, said := range l.heard {
		lines := strings.Split(strings.TrimSuffix(said, "\n"), "\n")
		for _, one := range lines {
			require.False(t, unspoken.MatchString(toType.ReplaceAllString(one, "")), "%q", one)
			require.Regexp(t, `^$|[.:?!]$|^benchlead `, one)
			require.Equal(t, strings.TrimSpace(one), one)
		}
		require.True(t, strings.HasPrefix(lines[len(lines)-1], "Type "), "the last of: %s", said)
	}
}

// No step has the cautions of the step before it told in full once more, and every one
// was told in full at the step where it came up.
func TestNoCautionIsToldTwiceRunning(t *testing.T) {
	typed, _ := wholeJob(t, withNewPack, newPackNewCharger)
	l := &listener{typed: typed}
	s := openedAgain(t, shippedBench(t))
	require.NoError(t, line.New(l, &l.out).Walk(context.Background(), s))
	before, short := map[string]bool{}, 0
	for _, said := range l.heard {
		if strings.Contains(said, "Make safe before") || !strings.Contains(said, "Type the reading") && !strings.Contains(said, "a number of the list") {
			continue
		}
		now := map[string]bool{}
		for _, one := range strings.Split(said, "\n") {
			if full, ok := strings.CutPrefix(one, "Caution: "); ok {
				require.False(t, before[full], "%s", full)
				now[full] = true
			}
			if titles, ok := strings.CutPrefix(one, "Caution, as before: "); ok {
				short++
				for full := range before { // it goes on being known
					if strings.Contains(titles, strings.SplitN(full, ". ", 2)[0]) {
						now[full] = true
					}
				}
			}
		}
		before = now
	}
	require.Positive(t, short)
}

// Lines are as wide as COLUMNS says; into a pipe they are not broken.
func TestLinesAreAsWideAsAsked(t *testing.T) {
	longest := func(columns string) int {
		var out bytes.Buffer
		env := func(name string) string { return map[string]string{"COLUMNS": columns}[name] }
		require.Zero(t, Run(context.Background(), []string{"--demo", "walk", "1"}, Streams{In: strings.NewReader(""), Out: &out, Err: io.Discard}, env))
		most := 0
		for _, l := range strings.Split(out.String(), "\n") {
			most = max(most, len(l))
		}
		return most
	}
	require.Greater(t, longest(""), 80)
	for _, columns := range []int{20, 40, 100} {
		require.LessOrEqual(t, longest(strconv.Itoa(columns)), columns)
	}
}

// The lists of jobs, prices and the parts bin are sentences, a row each, with amounts that
// say their currency.
func TestTheListsCanBeHeard(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.db")
	code, _, errs := run(t, "", "--record", path, "bin", "add", "pack-starter", "--asking", "12.00", "--place", "shelf 2", "--shown", "1: yes, 9 A", "--shown", "2: yes")
	require.Zero(t, code, errs)
	for _, verb := range [][]string{{"--demo", "jobs"}, {"--demo", "prices"}, {"--demo", "prices", "find", "starter"}, {"--demo", "prices", "show", "starter"}, {"--record", path, "bin"}} {
		code, out, errs := run(t, "", verb...)
		require.Zero(t, code, errs)
		lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
		require.Greater(t, len(lines), 1, "%v", verb)
		for _, l := range lines {
			l = strings.TrimSpace(l)
			require.False(t, unspoken.MatchString(l), "%v: %q", verb, l)
			require.Regexp(t, `^$|\.$`, l)
			for _, amount := range regexp.MustCompile(`\d+\.\d\d\b[^-].{0,3}`).FindAllString(l, -1) {
				require.Contains(t, amount, " USD", "%v: %q", verb, l)
			}
		}
	}
}
