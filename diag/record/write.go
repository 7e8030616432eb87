package record

import (
	"bufio"
	"fmt"
	"io"

	"benchlead/diag/job"
)

// What an export says of itself. A change that an older reader would misread
// raises Version.
const (
	Format  = "benchlead record"
	Version = 1
)

// Log is one job with all its events.
type Log struct {
	Job    int64 // its number in the record it comes from
	Events []job.Event
	Spot   int64 // the byte of the export at which its number stands
}

// Write writes an export, see the package's comment. each calls take for one job
// after another.
func Write(to io.Writer, each func(take func(Log) error) error) error {
	out := bufio.NewWriter(to)
	fmt.Fprintf(out, "{\n\"format\": %q,\n\"version\": %d,\n\"jobs\": [", Format, Version)
	sep := "\n"
	err := each(func(l Log) error {
		_, _ = out.WriteString(sep) // a write that failed is told by Flush
		sep = ",\n"
		return writeLog(out, l)
	})
	if err != nil {
		return err
	}
	_, _ = out.WriteString("\n]\n}\n")
	return out.Flush()
}

func writeLog(out *bufio.Writer, l Log) error {
	fmt.Fprintf(out, "{\"job\": %d, \"events\": [", l.Job)
	sep := "\n"
	for _, e := range l.Events {
		line, err := job.Encode(e)
		if err != nil {
			return fmt.Errorf("job %d: %w", l.Job, err)
		}
		_, _ = out.WriteString(sep)
		sep = ",\n"
		if _, err := out.Write(line); err != nil {
			return err
		}
	}
	_, err := out.WriteString("\n]}")
	return err
}
