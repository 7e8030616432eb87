//go:build !windows

package recorddb

import (
	"errors"
	"os"
)

// syncFolder makes a rename in the folder durable.
func syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
