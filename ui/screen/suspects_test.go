package screen

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

// ready are suspects whose cloud is there, or becomes so.
type ready struct {
	cloud   *suspect.Cloud
	changed chan struct{}
}

func (r *ready) Cloud(job.Intake, []string) (*suspect.Cloud, bool) { return r.cloud, r.cloud != nil }
func (r *ready) Shop(string) counsel.Shop                          { return counsel.Shop{} }
func (r *ready) Changed() <-chan struct{}                          { return r.changed }

// put makes a cloud ready.
func (r *ready) put(c *suspect.Cloud) {
	r.cloud = c
	close(r.changed)
	r.changed = make(chan struct{})
}

// suspecting is the small pump with its circuit, and the suspects of one that does
// nothing.
func suspecting(t testing.TB) (ui.Bench, *ready) {
	t.Helper()
	root := "../.."
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	files = treetest.Change(t, files, "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}")
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["spray-pump"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	o := suspect.Options{Seed: 1, Machines: 100, Meter: lib.Instruments("pocket")}
	cloud, err := suspect.Build(maker, "dead", o)
	require.NoError(t, err)
	b := bench(t, small)
	book, issues := repair.LoadPrices(open(t, root+"/testdata/trees/pump-prices.yaml"))
	require.NoError(t, issues.Err())
	book.Shop, issues = shop.Load(open(t, root+"/testdata/trees/pump-settings.yaml"))
	require.NoError(t, issues.Err())
	r := &ready{cloud: cloud, changed: make(chan struct{})}
	b.Library, b.Prices, b.Suspects = lib, book, r
	return b, r
}

// doubted goes on to a verdict that the suspects contradict: weak ones of this pump
// hold 4 to 7 V.
func doubted(d driver) {
	for _, l := range []string{"rest 12.7", "charger 14", "held 9.3", "motor 0", "yes", "turns stands", "safe_stop stops"} {
		d.line(l)
	}
}

var suspectScenes = []struct {
	name string
	play func(d driver)
}{
	{"suspects-begin", func(driver) {}},
	{"suspects-step", func(d driver) { d.line("held 12.7"); d.line("suspects 1") }},
	{"suspects", func(d driver) { d.line("held 12.7"); d.keys("w") }},
	{"suspects-doubt", func(d driver) { doubted(d); d.keys("w") }},
	{"suspects-verdict", doubted},
	{"suspects-help", func(d driver) { d.keys("h") }},
}

func TestScreensOfSuspects(t *testing.T) {
	for _, scene := range suspectScenes {
		for _, s := range sizes {
			name := fmt.Sprintf("%s-%dx%d.txt", scene.name, s[0], s[1])
			t.Run(name, func(t *testing.T) {
				b, _ := suspecting(t)
				d := drive(t, b)
				d.size(s[0], s[1])
				d.begin("1", "1", "Green pump")
				scene.play(d)
				got := d.View()
				fits(t, got, s[0], s[1])
				uncut(t, d.Model)
				require.Equal(t, got, ansi.Strip(got), "colour in a test")
				sameInColour(t, d, got)
				require.Len(t, strings.Split(got, "\n"), s[1])
				compare(t, filepath.Join("../../testdata/screens", name), got)
			})
		}
	}
}

// Suspects that become ready while a page is looked at are shown, and what is typed
// or read meanwhile stays.
func TestThePageTakesUpSuspectsThatBecomeReady(t *testing.T) {
	b, r := suspecting(t)
	cloud := r.cloud
	r.cloud = nil
	d := drive(t, b)
	d.size(120, 40)
	wait := d.Init()
	d.begin("1", "1", "Green pump")
	d.line("rest 12.7")
	require.Contains(t, d.View(), "Suspects are being worked out")
	said := d.said
	d.keys("12.6")
	r.put(cloud)
	_, again := d.Update(wait())
	require.NotNil(t, again, "it waits for the next")
	require.Contains(t, d.View(), "The battery is weak, possible")
	require.Equal(t, "12.6", d.input.text())
	require.Equal(t, said, d.said)

	d.keys("<ctrl+u> w")
	require.Contains(t, d.View(), "48 %")
	r.put(nil)
	d.Update(again())
	require.Contains(t, d.View(), "being worked out", "the view is taken up, too")
}

func TestNothingWaitsWithoutSuspects(t *testing.T) {
	d := drive(t, bench(t, small))
	require.Nil(t, d.Init())
	d.begin("1", "1", "A")
	d.keys("w")
	require.Equal(t, "w", d.input.text(), "w is a letter like others")
	b, _ := suspecting(t)
	ctx, end := context.WithCancel(context.Background())
	wait := NewModel(ctx, Options{Bench: b}).Init()
	end()
	require.Nil(t, wait())
}

// The words that the view offers can be typed where they are read, and on the step
// though the first letter of one opens the list of tests.
func TestTheWordsOfSuspectsCanBeTyped(t *testing.T) {
	b, _ := suspecting(t)
	for _, first := range []string{"", "w "} {
		d := drive(t, b)
		d.begin("1", "1", "Green pump")
		offered := d.session.Counsel().Tests[1].Test
		d.keys(first + "t e l l _ 2 <enter>")
		require.Equal(t, offered, d.session.Position().Test)
		d.keys(first + "s u s p e c t s _ 1 <enter>")
		require.Contains(t, strings.Join(d.said, " "), "The battery is weak: of 100 simulated machines")
		require.Nil(t, d.over)
		d.keys(first + "t a k e _ r e s t <enter>")
		require.Equal(t, "rest", d.session.Position().Test.ID)
	}
}

// The suspects are the first to give way: no line of the page that stands there
// without them is missing with them.
func TestSuspectsGiveWayFirst(t *testing.T) {
	with, _ := suspecting(t)
	without, _ := suspecting(t)
	without.Suspects = nil
	for height := leastHeight; height <= 44; height++ {
		for _, width := range []int{60, 80, 120} {
			a, b := drive(t, with), drive(t, without)
			for _, d := range []driver{a, b} {
				d.size(width, height)
				d.begin("1", "1", "Green pump")
				d.line("held 12.7")
				d.said = nil
			}
			page := a.View()
			fits(t, page, width, height)
			for _, l := range strings.Split(strings.Join(b.body(b.layout()), "\n"), "\n") {
				require.Contains(t, page, strings.TrimSpace(l), "%d by %d", width, height)
			}
		}
	}
}
