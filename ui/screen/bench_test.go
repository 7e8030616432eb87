package screen

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/ui"
)

// Folders of trees: a small invented bench of these tests, and the shipped one.
const (
	small   = "../../testdata/screens/bench"
	shipped = "../../trees"
)

func load(t testing.TB, folder string) *tree.Library {
	t.Helper()
	var files []source.File
	require.NoError(t, fs.WalkDir(os.DirFS(folder), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(name, ".yaml") || strings.HasPrefix(name, "demo/") {
			return err
		}
		files = append(files, open(t, filepath.Join(folder, name)))
		return nil
	}))
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	return lib
}

func open(t testing.TB, name string) source.File {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	file, issues := source.Open(name, data)
	require.NoError(t, issues.Err())
	return *file
}

// lapse is how far the clock of a bench moves at each look.
var lapse = time.Minute

// bench is a bench with a clock that moves a minute at each look, from a fixed
// day on.
func bench(t testing.TB, folder string) ui.Bench {
	t.Helper()
	now := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	b := ui.Bench{Library: load(t, folder), Store: &job.Memory{}, Now: func() int64 {
		now = now.Add(lapse)
		return now.UnixMicro()
	}}
	if folder == small {
		book, issues := repair.LoadPrices(open(t, small+"/prices.txt"))
		require.NoError(t, issues.Err())
		book.Shop, issues = shop.Load(open(t, small+"/settings.txt"))
		require.NoError(t, issues.Err())
		b.Prices = book
	}
	return b
}

// driver presses keys as a terminal would send them.
type driver struct {
	t testing.TB
	*Model
}

func drive(t testing.TB, b ui.Bench) driver {
	return driver{t, NewModel(context.Background(), Options{Bench: b, Zone: time.UTC, Record: "record.db"})}
}

func (d driver) size(w, h int) { d.Update(tea.WindowSizeMsg{Width: w, Height: h}) }

var special = map[string]tea.KeyType{
	"<enter>": tea.KeyEnter, "<esc>": tea.KeyEsc, "<up>": tea.KeyUp, "<down>": tea.KeyDown, "<pgup>": tea.KeyPgUp,
	"<pgdown>": tea.KeyPgDown, "<backspace>": tea.KeyBackspace, "<delete>": tea.KeyDelete, "<left>": tea.KeyLeft, "<right>": tea.KeyRight,
	"<home>": tea.KeyHome, "<end>": tea.KeyEnd, "<ctrl+u>": tea.KeyCtrlU, "<ctrl+w>": tea.KeyCtrlW, "<ctrl+c>": tea.KeyCtrlC,
	"<ctrl+b>": tea.KeyCtrlB, "<ctrl+g>": tea.KeyCtrlG, "<tab>": tea.KeyTab, "<f1>": tea.KeyF1,
}

// keys presses what the words say: <enter> and the like are keys, other words
// are typed in one piece, with _ for a space.
func (d driver) keys(words string) {
	d.t.Helper()
	for _, w := range strings.Fields(words) {
		if typ, ok := special[w]; ok {
			d.Update(tea.KeyMsg{Type: typ})
			continue
		}
		require.False(d.t, strings.HasPrefix(w, "<"), "no such key: %s", w)
		d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(strings.ReplaceAll(w, "_", " "))})
	}
}

// press1 presses the key of one character.
func (d driver) press1(char string) {
	d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(char)})
}

// lap times so many milliseconds with the watch.
func (d driver) lap(ms int64) {
	d.press1(" ")
	lapse = time.Duration(ms) * time.Millisecond
	defer func() { lapse = time.Minute }()
	d.press1(" ")
}

// count starts a countdown, and looks at it so many milliseconds later.
func (d driver) count(ms int64) {
	lapse = 0
	d.press1(" ")
	lapse = time.Duration(ms) * time.Millisecond
	d.Update(countTick{d.Model.count.run})
	lapse = time.Minute
}

// line types a whole line, and Enter.
func (d driver) line(text string) {
	d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)})
	d.Update(tea.KeyMsg{Type: tea.KeyEnter})
}

// begin takes in a machine, with what is usual for all but these answers.
func (d driver) begin(answers ...string) {
	d.t.Helper()
	d.keys("n")
	for _, a := range answers {
		d.line(a)
	}
	for i := 0; d.intake != nil; i++ {
		require.Less(d.t, i, 50, "the intake doesn't end: %s", d.wrong)
		d.keys("<enter>")
	}
	require.NotNil(d.t, d.session)
}
