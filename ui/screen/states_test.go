package screen

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/ui"
)

// states are pages of the program that are seen seldom, drawn as the scenes are.
var states = []struct {
	name string
	play func(d driver)
}{
	{"intake-first", func(d driver) { d.keys("n") }},
	{"intake-done", func(d driver) {
		d.bench.Store = &fullStore{Store: d.bench.Store, err: errors.New("the disk is full")}
		d.keys("n 1 <enter> 1 <enter>")
		for !d.intake.done {
			d.keys("<enter>")
		}
	}},
	{"jobs-search", func(d driver) { twoJobs(d); d.keys("/green_open") }},
	{"jobs-nowhere", func(d driver) { twoJobs(d); d.keys("/zebra") }},
	{"jobs-refused", func(d driver) { twoJobs(d); d.keys("7 <enter>") }},
	{"jobs-help", func(d driver) { d.keys("h") }},
	{"system-gone", func(d driver) {
		_, err := d.bench.Store.Create(context.Background(), []job.Event{{At: d.bench.Now(), Kind: job.KindIntake, Intake: &job.Intake{System: "of-later", Complaint: "dead", Machine: "Green pump"}}})
		require.NoError(d.t, err)
		d.keys("1 <enter>")
	}},
	{"take-nothing", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("t zebra") }},
	{"typed-long", func(d driver) {
		d.begin("1", "1", "Green pump")
		d.keys("note_the_owner_says_that_it_stood_in_the_rain_for_a_week_and_then_ran_once_more_before_it_stopped_for_good_ <left>")
	}},
	{"noted", func(d driver) { d.begin("1", "1", "Green pump"); d.line("note it hums") }},
	{"machine", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("m") }},
	{"machine-asked", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("m 1 <enter>") }},
	{"machine-put-right", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("m 2 _Blue_pump <enter>") }},
	{"undone", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> 12.6 <enter> z <enter>") }},
	{"passed", func(d driver) { d.begin("1", "1", "Green pump"); d.keys("1 <enter> c <enter>") }},
	{"others", func(d driver) {
		d.begin("1", "1", "Green pump")
		other, _, err := ui.Resume(context.Background(), d.bench, 1)
		require.NoError(d.t, err)
		_, err = other.Enter(context.Background(), "1")
		require.NoError(d.t, err)
		d.keys("2 <enter>")
	}},
	{"disk-full", func(d driver) {
		disk := &fullStore{Store: d.bench.Store}
		d.bench.Store = disk
		d.begin("1", "1", "Green pump")
		disk.err = errors.New("the disk is full")
		d.keys("1 <enter>")
	}},
	{"verdict-nothing", nothingFound},
	{"verdict-aim", func(d driver) { verdict(d); d.keys("a <enter>") }},
	{"verdict-endings", func(d driver) { verdict(d); d.line("close") }},
	{"close-sure", func(d driver) { nothingFound(d); d.line("close 2") }},
	{"left-after", func(d driver) { verdict(d); d.keys("1 <enter>"); approve(d); mend(d); d.keys("l") }},
	{"evidence-after", func(d driver) {
		verdict(d)
		d.keys("1 <enter>")
		approve(d)
		mend(d)
		d.keys("12.7 <enter> yes <enter> 11.8 <enter> e")
	}},
	{"estimate-passed", func(d driver) { verdict(d); d.keys("1 <enter> c <enter> the_shop's_own <enter>") }},
	{"repair-bin", func(d driver) { longRepair(d); d.line("yes"); d.line("bin") }},
	{"closed-again", func(d driver) { closing(d); d.keys("1 <enter> yes <enter> q <enter> 1 <enter> e") }},
}

func twoJobs(d driver) {
	for _, name := range []string{"Green pump", "Yellow pump"} {
		d.begin("1", "1", name)
		d.keys("q <enter>")
	}
}

// nothingFound goes on to the verdict on a sound machine.
func nothingFound(d driver) {
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6 <enter> yes <enter> 11.8 <enter> 11.2 <enter> 1 <enter>")
}

func TestScreensOfStates(t *testing.T) {
	for _, scene := range states {
		for _, s := range sizes {
			t.Run(fmt.Sprintf("%s-%dx%d", scene.name, s[0], s[1]), func(t *testing.T) {
				d := drive(t, bench(t, small))
				d.size(s[0], s[1])
				scene.play(d)
				got := d.View()
				sameInColour(t, d, got)
				golden(t, scene.name, got, s[0], s[1])
			})
		}
	}
}

// golden compares a page with its file.
func golden(t *testing.T, name, page string, width, height int) {
	t.Helper()
	fits(t, page, width, height)
	compare(t, filepath.Join("../../testdata/screens", fmt.Sprintf("%s-%dx%d.txt", name, width, height)), page)
}

// What stands there while the trees are read, and where nothing fits.
func TestScreensWithoutAPage(t *testing.T) {
	for _, s := range sizes {
		o := &opening{ctx: context.Background(), options: Options{Record: "record.db", Zone: time.UTC}}
		_, _ = o.Update(tea.WindowSizeMsg{Width: s[0], Height: s[1]})
		golden(t, "opening", o.View(), s[0], s[1])
	}
	for _, s := range [][2]int{{40, 10}, {24, 4}, {9, 3}, {1, 1}} {
		d := drive(t, bench(t, small))
		d.size(s[0], s[1])
		golden(t, "too-small", d.View(), s[0], s[1])
	}
}

// Suspects that are still being worked out.
func TestScreensOfAwaitedSuspects(t *testing.T) {
	for _, s := range sizes {
		b, r := suspecting(t)
		r.cloud = nil
		d := drive(t, b)
		d.size(s[0], s[1])
		d.begin("1", "1", "Green pump")
		golden(t, "suspects-awaited", d.View(), s[0], s[1])
		d.keys("w")
		golden(t, "suspects-awaited-all", d.View(), s[0], s[1])
	}
}
