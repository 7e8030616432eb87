package app

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/casefile"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// schemas are the sorts of file that a person writes.
var schemas = map[string]func() map[string]any{
	"trees": tree.Schema, "case": casefile.Schema, "prices": repair.Schema, "settings": shop.Schema,
}

func (p *program) schemaVerb() *cobra.Command {
	sorts := slices.Sorted(maps.Keys(schemas))
	return &cobra.Command{
		Use:   "schema [" + strings.Join(sorts, "|") + "]",
		Short: "Print a JSON Schema of fault tree, case, price or settings files, for an editor",
		Long: strings.TrimSpace(`
Prints a JSON Schema (https://json-schema.org, draft 2020-12) of the files that a
person writes: an editor that knows such schemas then completes the keys and marks
those that are missing or unknown. What the words mean, "benchlead check" checks.`),
		Example:   "  benchlead schema trees > tree.schema.json\n  benchlead schema settings",
		ValidArgs: sorts,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage{fmt.Errorf("schema wants one of: %s", strings.Join(sorts, ", "))}
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			sort := "trees"
			if len(args) == 1 {
				sort = args[0]
			}
			schema := schemas[sort]
			if schema == nil {
				hint := ""
				if near := source.Nearest(sort, sorts); near != "" {
					hint = fmt.Sprintf("; did you mean %q?", near)
				}
				return usage{fmt.Errorf("there is no schema of %q; it is one of %s%s", sort, strings.Join(sorts, ", "), hint)}
			}
			out := json.NewEncoder(p.streams.Out)
			out.SetIndent("", "  ")
			return out.Encode(schema())
		},
	}
}
