// Package trees holds the knowledge that the program ships with: the YAML files
// beside this one, embedded. It reads nothing else and knows nothing of what
// they mean.
package trees

import "embed"

// Files are the shipped systems, trees, repairs, cautions and lists.
//
//go:embed *.yaml systems faults repairs shared
var Files embed.FS

// Demo is the invented shop of the demo: prices and jobs.
//
//go:embed demo
var Demo embed.FS
