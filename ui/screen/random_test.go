package screen

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// texts are what is typed in one piece, now and then.
var texts = []string{
	"n", "1", "2", "3", "yes", "c", "f", "z", "q", "d", "k", "t", "h", "?", "l", "e", "p", "12.6", "8.9", "126", "OL", "flicker",
	"rest 12; held 9", "take motor", "close", "close 1", "approve 90 me", "time", "stop", "take runs_down", "runs_down 1.2", "declined me", "tick", "all", "list", "a", "pass 1", "choose 1", "note x", "done", "pass", "undo", "/", " ", "w", "tell 1", "suspects 2",
}

// pressed are the keys that are no characters, but for the one that ends the program.
func pressed() []tea.KeyType {
	var types []tea.KeyType
	for _, typ := range special {
		if typ != tea.KeyCtrlC {
			types = append(types, typ)
		}
	}
	slices.Sort(types)
	return types
}

// sound is what holds after every key: the page is within the window, nothing in it acts
// on a terminal, and what the job shows is on record.
func sound(t require.TestingT, m *Model) {
	page := strings.ReplaceAll(m.View(), "\a", "") // the bell is the program's own
	require.LessOrEqual(t, strings.Count(page, "\n")+1, m.height)
	for _, l := range strings.Split(page, "\n") {
		require.LessOrEqual(t, ansi.StringWidth(l), m.width, "%q", l)
		require.Equal(t, source.CleanLine(l), l)
	}
	uncut(t, m)
	if m.session == nil {
		return
	}
	stored, err := m.bench.Store.Load(context.Background(), m.session.ID())
	require.NoError(t, err)
	require.Equal(t, len(stored), len(m.session.Events()))
}

// uncut says that no part of the page is wider than the window: View would cut it off
// without a sign.
func uncut(t require.TestingT, m *Model) {
	if tooSmall(m.width, m.height) {
		return
	}
	for _, l := range m.drawn(m.layout()) {
		require.LessOrEqual(t, ansi.StringWidth(l), m.width, "%q", l)
	}
}

// kept is what holds at the end: every log folds, leads somewhere, and is what was shown.
func kept(t require.TestingT, m *Model) {
	jobs, err := m.bench.Store.Jobs(context.Background())
	require.NoError(t, err)
	for _, j := range jobs {
		events, err := m.bench.Store.Load(context.Background(), j.ID)
		require.NoError(t, err)
		facts, err := job.Fold(events)
		require.NoError(t, err)
		require.NotEmpty(t, walk.Where(m.bench.Library, facts).Stage)
		if m.session != nil && m.session.ID() == j.ID {
			require.Equal(t, string(job.Canonical(events)), string(job.Canonical(m.session.Events())))
		}
	}
}

// TestAnyKeysAtAnySize: no panic, no page wider or taller than its window, and
// the log still folds, whatever is pressed.
func TestAnyKeysAtAnySize(t *testing.T) {
	plain := bench(t, small)
	weighed, _ := suspecting(t)
	types := pressed()
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom([]ui.Bench{plain, weighed}).Draw(t, "bench")
		b.Store = &job.Memory{}
		m := NewModel(context.Background(), Options{Bench: b, Zone: time.UTC})
		w, h := 80, 24
		m.Update(tea.WindowSizeMsg{Width: w, Height: h})
		if rapid.Bool().Draw(t, "in a job") {
			for _, text := range []string{"n", "1", "1", "", "", "", "", "", "", ""} {
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)})
				m.Update(tea.KeyMsg{Type: tea.KeyEnter})
			}
		}
		for range rapid.IntRange(1, 60).Draw(t, "keys") {
			switch rapid.IntRange(0, 9).Draw(t, "what") {
			case 0:
				w, h = rapid.IntRange(1, 140).Draw(t, "w"), rapid.IntRange(1, 50).Draw(t, "h")
				m.Update(tea.WindowSizeMsg{Width: w, Height: h})
			case 1, 2, 3:
				m.Update(tea.KeyMsg{Type: rapid.SampledFrom(types).Draw(t, "key")})
			case 4:
				m.Update(suspectsReady{})
				m.Update(watchTick{m.ticks})
				m.Update(countTick{m.count.run})
			case 5:
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Paste: rapid.Bool().Draw(t, "paste"), Runes: []rune(rapid.String().Draw(t, "runes"))})
			default:
				m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(rapid.SampledFrom(texts).Draw(t, "text"))})
				if rapid.Bool().Draw(t, "enter") {
					m.Update(tea.KeyMsg{Type: tea.KeyEnter})
				}
			}
			sound(t, m)
		}
		kept(t, m)
	})
}
