package app

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/shop"
)

// settled runs the program with settings in a place of the test's own.
func settled(t *testing.T, place string, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	env := func(name string) string {
		return map[string]string{"BENCHLEAD_RECORD": filepath.Join(t.TempDir(), "r.db"), "BENCHLEAD_SETTINGS": place}[name]
	}
	code = Run(context.Background(), args, Streams{In: strings.NewReader(""), Out: &o, Err: &e}, env)
	return code, o.String(), e.String()
}

func TestSettingsAreBegunOnceAndShown(t *testing.T) {
	place := filepath.Join(t.TempDir(), "deep", "folder", "settings.yaml")
	code, out, errs := settled(t, place, "settings", "--write")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, place)
	data, err := os.ReadFile(place)
	require.NoError(t, err)
	require.Equal(t, shop.Defaults, string(data))
	left, err := os.ReadDir(filepath.Dir(place))
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing half-written lies about")

	require.NoError(t, os.WriteFile(place, []byte("shop: {currency: EUR, labour rate: 61.5, tax percent: 19, tax on: both}\nbench: {meters: [bench]}\n"), 0o600))
	code, _, errs = settled(t, place, "settings", "--write")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "left as it is")
	code, out, errs = settled(t, place, "settings")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "The shop's settings, from "+place)
	require.Regexp(t, `labour rate +61\.5 +line 1\n`, out)
	require.Regexp(t, `seasons +3 +default\n`, out)
	require.Regexp(t, `meters +bench +line 2\n`, out)
	require.Regexp(t, `Meters on file: .*bench`, out)
}

// A link that leads nowhere, and a folder, are there: nothing is written through them.
func TestSettingsAreNeverWrittenOverAnything(t *testing.T) {
	folder := t.TempDir()
	code, _, errs := settled(t, folder, "settings", "--write")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "is there already")
	link := filepath.Join(folder, "link.yaml")
	if os.Symlink(filepath.Join(folder, "nowhere.yaml"), link) != nil {
		t.Skip("no symbolic links here")
	}
	code, _, _ = settled(t, link, "settings", "--write")
	require.Equal(t, ExitInput, code)
	require.NoFileExists(t, filepath.Join(folder, "nowhere.yaml"))
	file := filepath.Join(folder, "plain")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	code, _, errs = settled(t, filepath.Join(file, "settings.yaml"), "settings", "--write")
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "was not written")
}

func TestSettingsAreChecked(t *testing.T) {
	folder := t.TempDir()
	write := func(text string) string {
		name := filepath.Join(folder, "s.yaml")
		require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
		return name
	}
	const least = "shop: {currency: EUR, labour rate: 61.5, tax percent: 19, tax on: both}\n"
	code, out, errs := settled(t, "", "settings", "--check", write(least))
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "nothing to mend. 4 settings are its own")
	for text, says := range map[string]string{
		least + "bench: {meters: [pocket, benhc]}\n": `s.yaml:2:18: no meter is called "benhc"`,
		least + "worth: {key-start-21v: 5}\n":        `s.yaml:2:9: "key-start-21v" is neither a system nor a kind of machine`,
		least + "grades: {}\nsalary: 3\n":            `s.yaml:3:1: the settings has no "salary"`,
		"shop: \xff":                                 "s.yaml:1:7: the byte 0xFF",
	} {
		code, out, errs := settled(t, "", "settings", "--check", write(text))
		require.Equal(t, ExitInput, code, text)
		require.Empty(t, out)
		require.Contains(t, errs, says)
	}
	code, out, errs = settled(t, "", "settings", "--check", write(least+"\nbench: {tools: [wrenches, wrenchs]}\n"))
	require.Zero(t, code, errs)
	require.Contains(t, out, "No repair names these tools: wrenchs.")
	code, _, errs = settled(t, "", "settings", "--check", filepath.Join(folder, "none.yaml"))
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "can't be read")
	code, _, _ = settled(t, "", "settings", "--check", "x", "--write")
	require.Equal(t, ExitUsage, code)
	// The settings in use are checked the same way, by whichever verb.
	for _, verb := range [][]string{{"settings"}, {"check"}, {"prices"}} {
		code, _, errs = settled(t, write(least+"worth: {key-start-21v: 5}\n"), verb...)
		require.Equal(t, ExitInput, code, verb)
		require.Contains(t, errs, "key-start-21v")
	}
}

func TestToolsAreListed(t *testing.T) {
	code, out, errs := settled(t, "", "settings", "--tools")
	require.Equal(t, ExitDone, code, errs)
	require.Regexp(t, `(?m)^ +\d+  torque wrench$`, out)
}

// A long list stays within eighty columns.
func TestALongListOfToolsIsWrapped(t *testing.T) {
	code, out, errs := settled(t, filepath.Join("..", "..", "..", "trees", "demo", "settings.yaml"), "settings")
	require.Equal(t, ExitDone, code, errs)
	for _, l := range strings.Split(out, "\n") {
		if !strings.Contains(l, "settings.yaml") {
			require.LessOrEqual(t, len(l), 80, l)
		}
	}
	require.Contains(t, strings.Join(strings.Fields(out), " "), "torque wrench, post brush, fibre pen")
}

func TestSettingsAsJSON(t *testing.T) {
	code, out, errs := settled(t, pumpSettings, "settings", "--json")
	require.Equal(t, ExitDone, code, errs)
	var got struct {
		Own      bool            `json:"own"`
		Settings []listedSetting `json:"settings"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.True(t, got.Own)
	require.Equal(t, listedSetting{"shop", "labour rate", "48.00", pumpSettings + ":1:36", false}, got.Settings[1])
	require.Greater(t, len(got.Settings), 20)
}
