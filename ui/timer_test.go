package ui_test

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/walk"
	"benchlead/ui"
	"benchlead/ui/line"
	"benchlead/ui/screen"
)

// timed is a bench whose machine has one thing more to be proved, with a watch, and
// whose clock stands where at says: microseconds.
func timed(t *testing.T, at *int64) ui.Bench {
	t.Helper()
	b := bench(t)
	b.Library = edited(t, "  - test: safe_stop\n", `  - test: runs_down
    title: Seconds until it stands
    measure: seconds
    state: "off"
    minutes: 3
    possible: {from: "0.1", to: "60"}
    bands:
      - {band: in time, below: "2.7", basis: practice, such as: [1.8]}
      - {band: too slow, such as: [3.2]}
  - test: safe_stop
`)
	m := b.Library.Meters["test"]
	m.Scales = append(m.Scales, m.Scales[0])
	last := &m.Scales[len(m.Scales)-1]
	last.Function, last.FullScale, last.Resolution, last.Percent, last.Counts, last.InputOhms = "seconds", 600, 0.01, 0, 5, 0
	b.Now = func() int64 { return *at }
	return b
}

// laps are what is done at a watch: a line, or a wait in microseconds.
var laps = []any{"take runs_down", "time", 2_130_000, "stop", "time", 2_306_000, "stop", "time", 2_200_000, "stop", "2.31", "note done"}

// moving gives one line at a time, and moves the clock between them.
type moving struct {
	at   *int64
	acts []any
}

func (m *moving) Read(p []byte) (int, error) {
	for len(m.acts) > 0 {
		act := m.acts[0]
		m.acts = m.acts[1:]
		switch act := act.(type) {
		case int:
			*m.at += int64(act)
		case string:
			if act == "stop" {
				act = "" // Enter alone stops it
			}
			return copy(p, act+"\n"), nil
		}
	}
	return 0, io.EOF
}

// The watch records nothing; the time that is entered is the same in every face.
func TestTheWatchInThreeFaces(t *testing.T) {
	ctx := context.Background()
	plays := map[string]func(b ui.Bench, at *int64, s *ui.Session){
		"engine": func(_ ui.Bench, at *int64, s *ui.Session) {
			for _, act := range laps {
				if wait, ok := act.(int); ok {
					*at += int64(wait)
					continue
				}
				enter(t, s, act.(string))
			}
		},
		"lines": func(_ ui.Bench, at *int64, s *ui.Session) {
			var out bytes.Buffer
			require.ErrorIs(t, line.New(&moving{at, laps}, &out).Walk(ctx, s), line.ErrEnd)
			require.Contains(t, out.String(), "2.13, 2.31, 2.20. Slowest of 3: 2.31 seconds.")
		},
		"keys": func(b ui.Bench, at *int64, s *ui.Session) {
			m := screen.NewModel(ctx, screen.Options{Bench: b})
			press := func(text string) {
				for _, r := range text {
					m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
				}
			}
			press("1")
			m.Update(tea.KeyMsg{Type: tea.KeyEnter})
			for _, act := range laps {
				switch act {
				case "time", "stop":
					press(" ")
				case "2.31":
					require.Contains(t, m.View(), "> 2.31_", "the slowest is proposed")
					m.Update(tea.KeyMsg{Type: tea.KeyEnter})
				default:
					if wait, ok := act.(int); ok {
						*at += int64(wait)
						continue
					}
					press(act.(string))
					m.Update(tea.KeyMsg{Type: tea.KeyEnter})
				}
			}
		},
	}
	logs := map[string]string{}
	for name, play := range plays {
		at := int64(1_000_000)
		b := timed(t, &at)
		s := beginPump(t, b)
		_, _, err := ui.Resume(ctx, b, s.ID()) // opening the screen's job is an event
		require.NoError(t, err)
		if name != "keys" {
			s, _, err = ui.Resume(ctx, b, s.ID())
			require.NoError(t, err)
		}
		play(b, &at, s)
		events, err := b.Store.Load(ctx, 1)
		require.NoError(t, err)
		logs[name] = string(job.Canonical(events))
	}
	require.Contains(t, logs["engine"], `"Text":"2.31"`)
	require.Equal(t, 1, strings.Count(logs["engine"], `"kind":"read"`))
	require.Equal(t, logs["engine"], logs["lines"])
	require.Equal(t, logs["engine"], logs["keys"])
}

func TestTheWatch(t *testing.T) {
	at := int64(1_000_000)
	s := beginPump(t, timed(t, &at))
	refused(t, s, "time", "nothing to be timed here")
	refused(t, s, "stop", "does not run")
	enter(t, s, "take runs_down")
	require.True(t, s.Timed())
	refused(t, s, "stop", "does not run")
	enter(t, s, "time")
	refused(t, s, "time", "runs already")
	at += 1_994_999
	require.Equal(t, []string{"1.99 s. Time it 3 times in all, then enter the slowest as the watch shows it."}, enter(t, s, "stop"))
	enter(t, s, "time")
	at -= 5
	refused(t, s, "", "clock was set back")
	require.Equal(t, []string{"1.99"}, s.Watch().Times())
	enter(t, s, "time")
	require.Equal(t, []string{"The time is dropped."}, enter(t, s, "undo"))
	require.Empty(t, s.Watch().Times())
	for _, us := range []int64{1_500_000, 2_500_000, 1_000_000} {
		enter(t, s, "time")
		at += us
		enter(t, s, "")
	}
	require.Equal(t, "2.50", s.Watch().Slowest())
	enter(t, s, "time")
	at += 1_000_000
	enter(t, s, "stop")
	require.Equal(t, []string{"1.00"}, s.Watch().Times(), "a fourth begins anew")
	enter(t, s, "take rest")
	require.Empty(t, s.Watch().Times(), "it is of one test")
	require.Empty(t, s.Facts().Answers["runs_down"])
}

// A time that was running when the program ended is nowhere; that is said, and the
// watch is offered anew.
func TestARunningTimeIsNotKept(t *testing.T) {
	at := int64(1_000_000)
	b := timed(t, &at)
	b.Library.Systems["spray-pump"].HandBack = []string{"runs_down"}
	s := beginPump(t, b)
	enter(t, s, "charger 13.5", "held 9.0", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns", "pass")
	require.Equal(t, walk.AtHandBack, s.Position().Stage)
	require.Equal(t, "runs_down", s.Position().Test.ID)
	enter(t, s, "time")
	s, said, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Equal(t, []string{"No time was kept. Time it from the beginning."}, said)
	require.False(t, s.Watch().Runs)
	enter(t, s, "2.31")
	_, said, err = ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Empty(t, said)
}

// A clock that is set while a blade runs down shortens no time, and a computer that
// slept has none.
func TestTheWatchGoesByAClockThatNobodySets(t *testing.T) {
	clock, ticks := int64(1_000_000), int64(70)
	b := timed(t, &clock)
	b.Steady = func() int64 { return ticks }
	s := beginPump(t, b)
	enter(t, s, "take runs_down", "time")
	ticks, clock = ticks+3_100_000, clock-60_000_000
	require.Contains(t, enter(t, s, "stop")[0], "3.10 s")
	enter(t, s, "time")
	ticks, clock = ticks+3_200_000, clock+3_200_000-900_000
	require.Contains(t, enter(t, s, "stop")[0], "3.20 s")
	enter(t, s, "time")
	ticks, clock = ticks+1_000_000, clock+9_000_000
	refused(t, s, "stop", "slept meanwhile")
	require.Equal(t, []string{"3.10", "3.20"}, s.Watch().Times())
}
