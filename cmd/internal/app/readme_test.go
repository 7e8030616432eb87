package app

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// inReadme is the first block of README.md behind a mark of its language.
func inReadme(t *testing.T, language string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(data), "```"+language+"\n")
	require.True(t, ok, language)
	block, _, ok := strings.Cut(rest, "```")
	require.True(t, ok, language)
	return block
}

// The case of the readme can be judged, and fits the schema that its first line names;
// a key that is spelled otherwise does not.
func TestTheCaseOfTheReadme(t *testing.T) {
	notRaced(t)
	text := inReadme(t, "yaml")
	name := filepath.Join(t.TempDir(), "case.yaml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	code, out, errs := run(t, "", "judge", name)
	require.Zero(t, code, errs)
	require.Contains(t, out, "Ground side, volts lost")

	names := regexp.MustCompile(`^# yaml-language-server: \$schema=(\w+)\.schema\.json\n`).FindStringSubmatch(text)
	require.NotNil(t, names)
	schema := schemaOf(t, names[1])
	require.NoError(t, schema.Validate(asJSON(t, []byte(text))))
	require.Error(t, schema.Validate(asJSON(t, []byte(strings.Replace(text, "complaint:", "complain:", 1)))))
}

// The plain lines of the readme are those that the demo says, in that order, to what
// is typed there.
func TestThePlainLinesOfTheReadme(t *testing.T) {
	typed, said := []string{"yes"}, []string{}
	for _, l := range strings.Split(strings.TrimSpace(inReadme(t, "text")), "\n") {
		if line, ok := strings.CutPrefix(l, "> "); ok {
			typed = append(typed, line)
			continue
		}
		said = append(said, l)
	}
	require.Greater(t, len(said), 10)
	env := func(name string) string { return map[string]string{"COLUMNS": "80", "BENCHLEAD_CACHE": cache}[name] }
	var out bytes.Buffer
	in := strings.NewReader(strings.Join(typed, "\n") + "\n")
	require.Zero(t, Run(context.Background(), []string{"--demo", "walk", "1"}, Streams{In: in, Out: &out, Err: io.Discard}, env))
	rest := out.String()
	for _, l := range said {
		_, after, ok := strings.Cut(rest, l+"\n")
		require.True(t, ok, "%q in: %s", l, rest)
		rest = after
	}
}
