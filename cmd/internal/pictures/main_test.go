//go:build !windows

package main

import (
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/charmbracelet/x/vt"
	"github.com/stretchr/testify/require"
)

const (
	root   = "../../.."
	stored = root + "/testdata/pictures"
	script = stored + "/screens.script"
)

// shown are the pictures of the script, each with what must be read on it.
var shown = map[string][]string{
	"jobs":      {"Orchard sprayer", "Market-garden tiller", "30 Nov 2026"},
	"step":      {"Ground side, volts lost", "healthy", "[R]", "frame", "bad", "3.84"},
	"suspects":  {"What may be wrong", "Don't buy yet", "simulated machines"},
	"verdict":   {"Verdict", "Clean and tighten the ground cable's ends", "USD"},
	"checklist": {"Clean and tighten the ground cable's ends", "[x]", "Star washer"},
}

// text is what a picture says; it must be well-formed.
func text(t *testing.T, svg []byte) string {
	t.Helper()
	var out strings.Builder
	for d := xml.NewDecoder(strings.NewReader(string(svg))); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return strings.ReplaceAll(out.String(), hard, " ")
		}
		require.NoError(t, err)
		if c, ok := token.(xml.CharData); ok {
			out.Write(c)
			out.WriteByte(' ')
		}
	}
}

func named(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.svg"))
	require.NoError(t, err)
	out := map[string][]byte{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		out[strings.TrimSuffix(filepath.Base(f), ".svg")] = data
	}
	return out
}

// The script plays, and its pictures show what they are for.
func TestThePicturesCanBeMade(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program and plays a job on it")
	}
	bin, folder := t.TempDir(), t.TempDir()
	build := exec.Command("go", "build", "-o", filepath.Join(bin, "benchlead"), "./cmd/benchlead")
	build.Dir = root
	said, err := build.CombinedOutput()
	require.NoError(t, err, "%s", said)
	t.Setenv("PATH", bin+string(os.PathListSeparator)+os.Getenv("PATH"))
	require.NoError(t, run([]string{script, folder}))
	hold(t, named(t, folder))
}

// Those that are stored show the same, are small, and README.md names each of them
// and no other.
func TestThePicturesOfTheReadme(t *testing.T) {
	pictures := named(t, stored)
	hold(t, pictures)
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	links := map[string]bool{}
	for _, m := range regexp.MustCompile(`!\[[^\]]+\]\(([^)]*)\)`).FindAllStringSubmatch(string(readme), -1) {
		require.FileExists(t, filepath.Join(root, m[1]))
		links[strings.TrimSuffix(filepath.Base(m[1]), ".svg")] = true
	}
	for name := range pictures {
		require.True(t, links[name], "README.md does not show %s", name)
	}
}

func hold(t *testing.T, pictures map[string][]byte) {
	t.Helper()
	require.Len(t, pictures, len(shown))
	all := 0
	for name, words := range shown {
		says := text(t, pictures[name])
		for _, w := range words {
			require.Contains(t, says, w, name)
		}
		require.Less(t, len(pictures[name]), 40_000, name)
		all += len(pictures[name])
	}
	require.Less(t, all, 150_000)
}

func TestAScriptSaysWhereItIsWrong(t *testing.T) {
	for line, says := range map[string]string{
		"press x":            "begin with start",
		"start 80 benchlead": "is no size",
		"start 80x24":        "name the command",
		"today tomorrow":     "is no day",
		"start 8x2 true\nx":  "there is no \"x\"",
	} {
		name := filepath.Join(t.TempDir(), "a.script")
		require.NoError(t, os.WriteFile(name, []byte("# a script\n\n"+line+"\n"), 0o600))
		err := run([]string{name, t.TempDir()})
		require.ErrorContains(t, err, says)
		require.ErrorContains(t, err, "a.script:"+strconv.Itoa(3+strings.Count(line, "\n")))
	}
}

// A day moves with the day that is drawn, and what stands right of it stays.
func TestDaysMove(t *testing.T) {
	for _, c := range []struct {
		row, want string
		by        int
	}{
		{"open    30 Nov 2026 |", "open     2 Dec 2026 |", 2},
		{"open     3 Dec 2026 |", "open    30 Nov 2026 |", -3},
		{"open    31 Feb 2026 |", "open    31 Feb 2026 |", 5},
		{"a 9 Jan 2027, 28 Feb 2028", "a 9 Jan 2027, 29 Feb 2028", 1}, // no room before the first
		{"x9 Jan 2027", "x9 Jan 2027", 1},
	} {
		screen := vt.NewEmulator(30, 1)
		_, err := screen.Write([]byte(c.row))
		require.NoError(t, err)
		moveDays(screen, c.by)
		require.Equal(t, c.want, strings.TrimRight(row(screen, 0), " "))
	}
}

// Whatever colour is drawn can be read on the ground of the picture: a contrast of
// 4.5 to 1 (WCAG 2.2, success criterion 1.4.3).
func TestColoursCanBeRead(t *testing.T) {
	light := func(hex string) float64 {
		sum := 0.0
		for i, share := range []float64{0.2126, 0.7152, 0.0722} {
			v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
			require.NoError(t, err)
			c := float64(v) / 255
			if c <= 0.04045 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			sum += share * c
		}
		return sum
	}
	require.InDelta(t, 1, light("#ffffff"), 1e-9)
	for _, drawn := range slices.AppendSeq([]string{ink}, maps.Values(lighter)) {
		require.Greater(t, (light(drawn)+0.05)/(light(ground)+0.05), 4.5, drawn)
	}
}
