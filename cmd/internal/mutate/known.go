package main

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
)

// readKnown reads the reasons of known survivors, by the mutant's name: a line
// "because: ..." gives the reason of all names below it, up to the next one. Empty
// lines and those begun with # count for nothing. No file knows of no survivor.
func readKnown(name string) (map[string]string, error) {
	known := map[string]string{}
	file, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return known, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	reason, lines := "", bufio.NewScanner(file)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if said, ok := strings.CutPrefix(line, "because:"); ok {
			reason = strings.TrimSpace(said)
			continue
		}
		if reason == "" {
			return nil, fmt.Errorf("%s:%d: no reason stands above this line; write \"because: ...\"", name, n)
		}
		if known[line] != "" {
			return nil, fmt.Errorf("%s:%d: this survivor stands twice", name, n)
		}
		known[line] = reason
	}
	return known, lines.Err()
}
