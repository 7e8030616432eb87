package recorddb

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"benchlead/diag/job"
)

// glanceWait is how long a glance waits for another that is writing: somebody has
// pressed a key and looks at the screen.
const glanceWait = 200 * time.Millisecond

// Glance opens the record in a file for a look that changes nothing: no file is made,
// no older record brought up to date, no backup made. Only Newest and Bin work on it.
// A record that is not there, or that this program would have to change first, is an
// error.
func Glance(ctx context.Context, path string) (*DB, error) {
	doing := fmt.Sprintf("looking at the record %q", path)
	path, err := filepath.Abs(path)
	if err == nil {
		_, err = os.Stat(path)
	}
	if err != nil {
		return nil, translate(ctx, doing, err)
	}
	if err := look(ctx, path, glanceWait, len(steps())); err != nil {
		return nil, translate(ctx, doing, err)
	}
	handle, err := connect(source(path, busy(glanceWait), "query_only(1)"))
	if err != nil {
		return nil, translate(ctx, doing, err)
	}
	var version int
	err = handle.QueryRowContext(ctx, `select user_version from pragma_user_version`).Scan(&version)
	if err == nil && version != len(steps()) {
		err = fmt.Errorf("its version is %d: %w", version, job.ErrReadOnly)
	}
	if err != nil {
		return nil, errors.Join(translate(ctx, doing, err), handle.Close())
	}
	return &DB{sql: handle, path: path}, nil
}
