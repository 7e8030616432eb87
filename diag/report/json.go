package report

import (
	"encoding/json"
	"fmt"
	"io"
)

// JSON writes the document as one indented object.
func JSON(w io.Writer, d Document) error { return writeJSON(w, d) }

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	return nil
}
