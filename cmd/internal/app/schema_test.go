package app

import (
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"benchlead/trees"
)

// schemaOf is a schema as the verb prints it, read by a library that knows the
// standard.
func schemaOf(t *testing.T, sort string) *jsonschema.Schema {
	t.Helper()
	code, out, errs := run(t, "", "schema", sort)
	require.Zero(t, code, errs)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("file:///s.json", doc))
	s, err := c.Compile("file:///s.json")
	require.NoError(t, err)
	return s
}

// asJSON is a YAML text as the values that a schema speaks of.
func asJSON(t *testing.T, text []byte) any {
	t.Helper()
	var v any
	require.NoError(t, yaml.Unmarshal(text, &v))
	encoded, err := json.Marshal(v)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(encoded)))
	require.NoError(t, err)
	return doc
}

// Every file that ships is as its schema says.
func TestShippedFilesFitTheirSchemas(t *testing.T) {
	s, seen := schemaOf(t, "trees"), 0
	require.NoError(t, fs.WalkDir(trees.Files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(trees.Files, name)
		require.NoError(t, err)
		require.NoError(t, s.Validate(asJSON(t, text)), name)
		seen++
		return nil
	}))
	require.Greater(t, seen, 100)
	for sort, pattern := range map[string]string{"case": "testdata/cases/*.yaml", "prices": "trees/demo/prices.yaml", "settings": "trees/demo/settings.yaml"} {
		names, err := filepath.Glob(filepath.Join("..", "..", "..", pattern))
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			require.NoError(t, schemaOf(t, sort).Validate(asJSON(t, text)), name)
		}
	}
}

// What an editor has to mark is not as the schema says.
func TestSchemasRefuse(t *testing.T) {
	tests := []struct{ sort, text string }{
		{"trees", "tree: a\ntitle: A\nstep: {}\n"},
		{"trees", "tree: a\n"},
		{"trees", "system: a\ntitle: A\nabout: x\ntests: [{test: t}]\n"},
		{"trees", "parts: {part: a}\n"},
		{"trees", "circuit: a\nparts: [{part: a, is: cell, from: x, to: y, basis: b, volt: 2}]\n"},
		{"trees", "tree: a\ntitle: A\nsteps: {one: {test: t, then: [x]}}\n"},
		{"case", "readings: []\n"},
		{"prices", "prices: [{part: a, grade: bin}]\n"},
		{"settings", "shop: {currency: USD}\n"},
	}
	for _, tt := range tests {
		require.Error(t, schemaOf(t, tt.sort).Validate(asJSON(t, []byte(tt.text))), tt.text)
	}
}
