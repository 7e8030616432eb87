// Package trees holds the knowledge that the program ships with: the YAML files
// beside this one, embedded. It reads nothing else and knows nothing of what
// they mean.
package trees

import "embed"

// Files are the shipped systems, trees, repairs, cautions and lists.
//
//go:embed *.yaml systems faults repairs shared
var Files embed.FS

// Outline says what Files hold and that they were checked, as long as their text is
// the same; `make outline` writes it anew.
//
//go:embed outline.json
var Outline []byte

// Demo is the invented shop of the demo: prices and jobs.
//
//go:embed demo
var Demo embed.FS
