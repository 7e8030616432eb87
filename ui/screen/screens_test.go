package screen

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

var update = flag.Bool("update", false, "write the screens anew")

// scenes are the pages that stand in testdata/screens, each at three sizes.
// Look at them when they change: a picture is right when a mechanic sees in
// five seconds what to do.
var scenes = []struct {
	name string
	play func(d driver)
}{
	{"jobs-none", func(driver) {}},
	{"prices", func(d driver) { d.keys("p <down>") }},
	{"prices-words", func(d driver) { d.keys("p a_or") }},
	{"prices-full", func(d driver) { d.keys("p <enter>") }},
	{"prices-nothing", func(d driver) { d.keys("p zebra") }},
	{"jobs", func(d driver) {
		d.begin("1", "1", "Green pump")
		d.keys("q <enter>")
		d.begin("1", "2", "Orchard sprayer with the long lance and the dented lid")
		d.line("close 2")
		d.line("yes")
		d.keys("q <enter>")
		d.begin("1", "2", "Yellow pump")
		d.keys("q <enter> <down>")
	}},
	{"intake", func(d driver) { d.keys("n 1 <enter> 2 <enter> Green_pump <enter> <enter>") }},
	{"intake-refused", func(d driver) { d.keys("n 1 <enter> 7 <enter>") }},
	{"seen", func(d driver) { d.begin("1", "1", "Green pump") }},
	{"seen-typed", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("3") }},
	{"intake-back", func(d driver) { d.keys("n 1 <enter> 2 <enter> Green_pump <enter> <esc> <esc>") }},
	{"intake-leave", func(d driver) { d.keys("n 1 <enter> 2 <enter> <esc> <esc> <esc>") }},
	{"intake-asked", func(d driver) { d.keys("n 1 <enter> ?") }},
	{"danger", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("3 <enter>") }},
	{"reading", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6") }},
	{"reading-close", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.4") }},
	{"reading-refused", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6_ohm <enter>") }},
	{"reading-questioned", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 126 <enter>") }},
	{"emptied", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <esc>") }},
	{"big-on", func(d driver) { big(d) }},
	{"big-reading", func(d driver) { big(d); d.keys("12.6") }},
	{"big-close", func(d driver) { big(d); d.keys("12.4") }},
	{"big-doubted", func(d driver) { big(d); d.keys("126") }},
	{"big-answer", func(d driver) { big(d); d.keys("12.6 <enter>") }},
	{"big-found", func(d driver) { big(d); d.keys("12.6 <enter> <enter> yes <enter> 8.9 <enter>") }},
	{"count", func(d driver) { held(d); d.count(0) }},
	{"count-typed", func(d driver) { held(d); d.count(0); d.keys("8.9") }},
	{"count-over", func(d driver) { held(d); d.count(3_000) }},
	{"count-rest", func(d driver) { resting(d); d.keys("<ctrl+g>"); d.count(754_000) }},
	{"count-aside", func(d driver) { resting(d); d.count(754_000); d.keys("<esc>") }},
	{"count-done", func(d driver) { resting(d); d.count(3_600_000) }},
	{"count-choices", func(d driver) { looking(d); d.count(3_000) }},
	{"waiting", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> c") }},
	{"work", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 11.9 <enter>") }},
	{"make-safe", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter>") }},
	{"held", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> yes <enter>") }},
	{"why", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> yes <enter> ?") }},
	{"why-danger", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("3 <enter> ?") }},
	{"why-safe", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> ?") }},
	{"why-work", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 11.9 <enter> ?") }},
	{"why-verdict", func(d driver) { verdict(d); d.keys("?") }},
	{"why-paths", func(d driver) { verdict(d); d.keys("p ?") }},
	{"why-estimate", func(d driver) { verdict(d); d.keys("1 <enter> ?") }},
	{"why-terms", func(d driver) { terms(d); d.keys("?") }},
	{"why-repair", func(d driver) { longRepair(d); d.keys("?") }},
	{"why-services", func(d driver) { services(d); d.keys("?") }},
	{"why-close", func(d driver) { closing(d); d.keys("?") }},
	{"why-sure", func(d driver) { closing(d); d.keys("1 <enter> ?") }},
	{"why-closed", func(d driver) { closing(d); d.keys("1 <enter> yes <enter> ?") }},
	{"intake-unsure", func(d driver) { d.keys("n 1 <enter> 3 <enter>") }},
	{"left", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> l") }},
	{"evidence", func(d driver) {
		d.begin("1", "1", "Green pump")
		d.keys("1 <enter> 12.6 <enter> yes <enter> 8.9 <enter> e")
	}},
	{"help", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> h") }},
	{"take", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> t <down>") }},
	{"take-search", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> t held") }},
	{"verdict", verdict},
	{"paths", func(d driver) { verdict(d); d.keys("p") }},
	{"estimate", func(d driver) { verdict(d); d.keys("1 <enter>") }},
	{"estimate-short", func(d driver) { verdict(d); d.keys("1 <enter>"); d.line("approve 40 Mrs. K, by telephone") }},
	{"declined", func(d driver) { verdict(d); d.keys("1 <enter>"); d.line("declined Mrs. K, at the counter") }},
	{"repair", func(d driver) { verdict(d); d.keys("1 <enter>"); approve(d) }},
	{"repair-ticked", func(d driver) { longRepair(d); d.keys("yes <enter> <enter> <enter> 5 <enter>") }},
	{"repair-care", func(d driver) { longRepair(d) }},
	{"repair-end", func(d driver) {
		longRepair(d)
		d.line("yes")
		d.keys("a")
		d.line("ll")
		d.keys("z <enter> z <enter> z <enter>")
	}},
	{"repair-asked", func(d driver) { longRepair(d); d.keys("yes <enter> 16") }},
	{"repair-open", func(d driver) { longRepair(d); d.keys("yes <enter>"); d.line("done") }},
	{"repair-list", func(d driver) { longRepair(d); d.line("list") }},
	{"services", services},
	{"services-asked", func(d driver) { services(d); d.keys("2") }},
	{"services-left", func(d driver) { services(d); d.keys("2 <enter>"); d.line("pass 3") }},
	{"hand-back", func(d driver) { services(d); d.line("pass") }},
	{"watch", watch},
	{"watch-runs", func(d driver) { watch(d); d.press1(" "); d.Update(watchTick{d.ticks}) }},
	{"watch-stopped", func(d driver) { watch(d); d.press1(" "); d.press1(" ") }},
	{"watch-third", func(d driver) { watch(d); d.lap(1_310); d.lap(1_480); d.lap(1_270) }},
	{"terms", terms},
	{"terms-ways", func(d driver) { terms(d); d.keys("yes <enter> 2") }},
	{"check", func(d driver) { verdict(d); d.keys("1 <enter>"); approve(d); mend(d) }},
	{"check-typed", func(d driver) {
		verdict(d)
		d.keys("1 <enter>")
		approve(d)
		mend(d)
		d.keys("12.7 <enter> yes <enter> 11.8")
	}},
	{"check-failed", func(d driver) {
		verdict(d)
		d.keys("1 <enter>")
		approve(d)
		mend(d)
		d.keys("12.7 <enter> yes <enter> 9.1 <enter>")
	}},
	{"close", func(d driver) { closing(d) }},
	{"closed", func(d driver) { closing(d); d.keys("1 <enter> yes <enter>") }},
	{"resumed", func(d driver) {
		d.begin("1", "1", "Green pump")
		d.keys("1 <enter> 12.6 <enter> yes <enter> q <enter> 1 <enter>")
	}},
}

func verdict(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter> 8.9 <enter> 11 <enter> 1 <enter>")
}

// big stands before a reading, with readings in big figures.
func big(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> <tab>")
}

// held stands before a reading that is taken with the switch held for two seconds.
func held(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter>")
}

// looking stands before a look that is taken with the switch held for two seconds.
func looking(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter> 8.9 <enter> 11 <enter>")
}

// resting stands before work that ends with an hour of rest.
func resting(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 11.9 <enter>")
}

// approve has the owner approve the estimate: the key begins the line with its
// total.
func approve(d driver) { d.keys("a <enter> Mrs._K,_by_telephone <enter>") }

// mend does the repair of the verdict: its cautions, each of its lines, done.
func mend(d driver) { d.keys("yes <enter> <enter> <enter> <enter> <enter> d <enter>") }

// terms goes on to a repair that has terms.
func terms(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter> 11.8 <enter> 5 <enter> 1 <enter> 1 <enter>")
	approve(d)
}

// longRepair goes on to a repair of many lines.
func longRepair(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter> 11.8 <enter> 0 <enter> 1 <enter> 1 <enter>")
	approve(d)
}

// services goes on to the usual work after a repair that is proved.
func services(d driver) {
	verdict(d)
	d.keys("1 <enter>")
	approve(d)
	mend(d)
	d.keys("12.7 <enter> yes <enter> 11.8 <enter> 11.2 <enter>")
}

// watch goes on to a safety function that is timed.
func watch(d driver) {
	services(d)
	d.line("pass")
	d.keys("1 <enter>")
}

// closing goes on to where nothing is left but to close the job.
func closing(d driver) {
	verdict(d)
	d.keys("1 <enter>")
	approve(d)
	mend(d)
	answers := map[string]string{"rest": "12.7", "held": "11.8", "motor": "11.2", "stops": "at once", "runs_down": "1.2"}
	for i := 0; d.step.prompt.Stage != walk.AtClose; i++ {
		require.Less(d.t, i, 20, "%s", d.View())
		switch d.step.prompt.Stage {
		case walk.AtSafe:
			d.line("yes")
			continue
		case walk.AtService:
			d.line("pass")
			continue
		}
		d.line(answers[d.step.pos.Test.ID])
	}
}

var sizes = [][2]int{{80, 24}, {120, 40}, {60, 20}}

func TestScreens(t *testing.T) {
	for _, scene := range scenes {
		for _, s := range sizes {
			name := fmt.Sprintf("%s-%dx%d.txt", scene.name, s[0], s[1])
			t.Run(name, func(t *testing.T) {
				d := drive(t, bench(t, small))
				d.size(s[0], s[1])
				scene.play(d)
				got := d.View()
				fits(t, got, s[0], s[1])
				uncut(t, d.Model)
				require.Equal(t, got, ansi.Strip(got), "colour in a test")
				sameInColour(t, d, got)
				require.Len(t, strings.Split(got, "\n"), s[1], "the page fills the window, so that the input stays in its place")
				compare(t, filepath.Join("../../testdata/screens", name), got)
			})
		}
	}
}

// compare compares with a file; trailing spaces don't show and don't count.
func compare(t *testing.T, file, got string) {
	t.Helper()
	var lines []string
	for _, l := range strings.Split(got, "\n") {
		lines = append(lines, strings.TrimRight(l, " "))
	}
	got = strings.Join(lines, "\n") + "\n"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), got)
}

// fits checks that a page is neither wider nor taller than the window.
func fits(t testing.TB, page string, w, h int) {
	t.Helper()
	lines := strings.Split(page, "\n")
	require.LessOrEqual(t, len(lines), h)
	for _, l := range lines {
		require.LessOrEqual(t, ansi.StringWidth(l), w, "%q", l)
	}
}
