package screen

import (
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// From a key to the frame it leads to, at 120x40 on the shipped trees: digits are
// typed and taken back, a reading is entered and undone, pages are opened. The store
// is in memory; what the disk adds, BenchmarkDurableReading tells.
func BenchmarkKeyToFrame(b *testing.B) {
	d := drive(b, bench(b, shipped))
	d.size(120, 40)
	d.begin("no-crank", "key-start-12v", "1")
	d.keys("yes <enter>")
	var times []time.Duration
	keys := []tea.KeyMsg{
		{Type: tea.KeyRunes, Runes: []rune("1")},
		{Type: tea.KeyRunes, Runes: []rune("2")},
		{Type: tea.KeyRunes, Runes: []rune(".")},
		{Type: tea.KeyRunes, Runes: []rune("6")},
		{Type: tea.KeyEnter},
		{Type: tea.KeyRunes, Runes: []rune("z")},
		{Type: tea.KeyRunes, Runes: []rune("l")},
		{Type: tea.KeyEsc},
		{Type: tea.KeyRunes, Runes: []rune("e")},
		{Type: tea.KeyEsc},
	}
	for i := 0; b.Loop(); i++ {
		begun := time.Now()
		d.Update(keys[i%len(keys)])
		_ = d.View()
		times = append(times, time.Since(begun))
	}
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)/2].Microseconds()), "µs-median")
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds()), "µs-p99")
}
