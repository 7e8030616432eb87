package ui_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
	"benchlead/ui/line"
	"benchlead/ui/screen"
)

// pump is the small invented library of testdata, with its prices.
func pump(t testing.TB) (*tree.Library, *repair.PriceBook) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "testdata", "trees", "pump", "*.yaml"))
	require.NoError(t, err)
	var files []source.File
	for _, name := range names {
		files = append(files, open(t, name))
	}
	lib, issues := tree.Load(files)
	require.Empty(t, issues)
	book, issues := repair.LoadPrices(open(t, filepath.Join("..", "testdata", "trees", "pump-prices.yaml")))
	require.Empty(t, issues)
	book.Shop, issues = shop.Load(open(t, filepath.Join("..", "testdata", "trees", "pump-settings.yaml")))
	require.Empty(t, issues)
	return lib, book
}

func open(t testing.TB, name string) source.File {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	file, issues := source.Open(filepath.Base(name), data)
	require.Empty(t, issues)
	return *file
}

// bench is a fresh record with a clock that counts.
func bench(t testing.TB) ui.Bench {
	t.Helper()
	lib, book := pump(t)
	at := int64(1_000_000)
	return ui.Bench{Library: lib, Prices: book, Store: new(job.Memory), Now: func() int64 { return at }}
}

// act is one line of a script.
type act struct{ what, text string }

func script(t testing.TB, name string) []act {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	var out []act
	for _, l := range strings.Split(string(data), "\n") {
		if l = strings.TrimSpace(l); l == "" || l[0] == '#' {
			continue
		}
		what, text, ok := strings.Cut(l, ":")
		require.True(t, ok, l)
		out = append(out, act{what, strings.TrimSpace(text)})
	}
	return out
}

// face plays a script on a bench.
type face func(t *testing.T, b ui.Bench, acts []act)

// engine calls the session itself.
func engine(t *testing.T, b ui.Bench, acts []act) {
	ctx, in := context.Background(), ui.NewIntake(b.Library)
	var s *ui.Session
	var err error
	for _, a := range acts {
		switch a.what {
		case "intake":
			_ = in.Answer(a.text)
		case "resume":
			s, _, err = ui.Resume(ctx, b, s.ID())
			require.NoError(t, err)
		case "type":
			if s == nil {
				s, err = ui.Begin(ctx, b, in.Result())
				require.NoError(t, err)
			}
			_, _ = s.Enter(ctx, a.text) // what is refused must be refused by all
		}
	}
}

// lines types into the plain face; each stretch between two openings of the job
// is one input.
func lines(t *testing.T, b ui.Bench, acts []act) {
	ctx := context.Background()
	var intake, typed strings.Builder
	var s *ui.Session
	walkOn := func() {
		if typed.Len() > 0 {
			var out bytes.Buffer
			err := line.New(strings.NewReader(typed.String()), &out).Walk(ctx, s)
			if s.Position().Stage != walk.AtClosed {
				require.ErrorIs(t, err, line.ErrEnd)
			}
		}
		typed.Reset()
	}
	for _, a := range acts {
		switch a.what {
		case "intake":
			intake.WriteString(a.text + "\n")
		case "type":
			if s == nil {
				in, err := line.New(strings.NewReader(intake.String()), new(bytes.Buffer)).Intake(b)
				require.NoError(t, err)
				s, err = ui.Begin(ctx, b, in)
				require.NoError(t, err)
			}
			typed.WriteString(a.text + "\n")
		case "resume":
			walkOn()
			var err error
			s, _, err = ui.Resume(ctx, b, s.ID())
			require.NoError(t, err)
		}
	}
	walkOn()
}

// hot are the keys that stand for a line while the input line is empty.
var hot = map[string]string{"undo": "z", "flicker": "f", "pass can't reach": "c", "tick": "", "done": "d", "all": "a"}

// keys presses real keys on the screen face, one message a key.
func keys(t *testing.T, b ui.Bench, acts []act) {
	m := screen.NewModel(context.Background(), screen.Options{Bench: b})
	press := func(msg tea.Msg) {
		_, cmd := m.Update(msg)
		require.Nil(t, cmd, "a key started a command")
		require.NotEmpty(t, m.View())
	}
	send := func(text string) {
		for _, r := range text {
			press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
		press(tea.KeyMsg{Type: tea.KeyEnter})
	}
	press(tea.WindowSizeMsg{Width: 80, Height: 24})
	press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'n'}})
	for _, a := range acts {
		switch a.what {
		case "intake":
			send(a.text)
		case "resume":
			send("q")
			send("1")
		case "type":
			text := a.text
			if key, ok := hot[text]; ok {
				text = key
			}
			send(text)
			if m.Session() != nil { // what was refused stays in the line
				press(tea.KeyMsg{Type: tea.KeyEsc})
			}
		}
	}
}

// One script of answers, three faces, one log: equal to the byte, the text as
// typed included.
func TestThreeFacesOneLog(t *testing.T) {
	scripts, err := filepath.Glob(filepath.Join("..", "testdata", "scripts", "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	for _, name := range scripts {
		t.Run(filepath.Base(name), func(t *testing.T) {
			acts := script(t, name)
			logs := map[string]string{}
			for what, play := range map[string]face{"engine": engine, "lines": lines, "keys": keys} {
				b := bench(t)
				play(t, b, acts)
				events, err := b.Store.Load(context.Background(), 1)
				require.NoError(t, err)
				logs[what] = string(job.Canonical(events))
				require.NotNil(t, events[len(events)-1].Closed, "%s: the script must end with a closed job\n%s", what, logs[what])
			}
			if filepath.Base(name) == "repair.txt" {
				require.Contains(t, logs["engine"], `"outcome":"repaired and proved"`, "the script should go all the way")
			}
			require.Equal(t, logs["engine"], logs["lines"])
			require.Equal(t, logs["engine"], logs["keys"])
		})
	}
}
