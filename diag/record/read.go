package record

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"

	"benchlead/diag/job"
	"benchlead/diag/source"
)

// Bounds on an export from a stranger. A job that filled one of them would have
// taken years at the bench.
const (
	MostBytes    = 2 << 30 // of the file
	mostEvent    = 1 << 20 // bytes of one event
	mostEvents   = 100_000 // of one job
	mostProblems = 100     // after that many it is not read on
	ahead        = 8 << 20 // bytes that may be read past what was taken
)

// Problem is one thing wrong in an export. Job and Event are 0 where it is of
// none; At is the byte it stands at, from 0.
type Problem struct {
	Job, Event int64
	At         int64
	Says       string
}

// Error names the job and the event, and what is wrong.
func (p Problem) Error() string {
	switch {
	case p.Job == 0:
		return p.Says
	case p.Event == 0:
		return fmt.Sprintf("job %d: %s", p.Job, p.Says)
	}
	return fmt.Sprintf("job %d, event %d: %s", p.Job, p.Event, p.Says)
}

// Reader reads an export, one job after another, and checks all of it: that each
// event is whole and loses nothing when it is taken in, that the log is one that
// a bench can have written, and that no text in it would steer a terminal.
type Reader struct {
	Problems []Problem // in the order they stand in

	file  io.ReadSeeker
	fuse  *fuse
	dec   *json.Decoder
	begun bool
	over  bool
	at    int64          // where the last token begins
	had   map[int64]bool // numbers of jobs
	log   Log            // being read
	spots []int64        // where its events stand
	bad   bool           // something in it was wrong
}

// NewReader reads an export from the beginning of a file.
func NewReader(file io.ReadSeeker) *Reader {
	f := &fuse{r: file}
	r := &Reader{file: file, fuse: f, dec: json.NewDecoder(f), had: map[int64]bool{}}
	r.dec.UseNumber()
	return r
}

// Next gives the next job that is sound; ok is false at the end, or where the
// file can't be read on. Nothing may be taken in before it has given all of them
// and there are no Problems.
func (r *Reader) Next() (log Log, ok bool) {
	for !r.over {
		if !r.begun {
			r.head()
			r.begun = true
			continue
		}
		if !r.more() {
			r.tail()
			break
		}
		r.job()
		if !r.bad && !r.over {
			return r.log, true
		}
		if len(r.Problems) >= mostProblems {
			break
		}
	}
	r.over = true
	return Log{}, false
}

// head reads up to the first job.
func (r *Reader) head() {
	r.delim('{')
	r.key("format")
	if format := r.token(); !r.over && format != Format {
		r.stop("it is no export of a benchlead record")
	}
	r.key("version")
	version := r.token()
	if n, ok := version.(json.Number); !r.over && (!ok || n.String() != strconv.Itoa(Version)) {
		r.stop(fmt.Sprintf("its version is %s, this program reads %d: update the program on this bench", source.CleanLine(cut(fmt.Sprint(version), 20)), Version))
	}
	r.key("jobs")
	r.delim('[')
}

// tail reads what follows the last job.
func (r *Reader) tail() {
	r.log = Log{}
	r.delim(']')
	r.delim('}')
	if r.over {
		return
	}
	r.allow()
	if t, err := r.dec.Token(); !errors.Is(err, io.EOF) {
		r.stopAt(r.dec.InputOffset()-length(t), "there is more after the end of the export")
	}
}

// job reads one job.
func (r *Reader) job() {
	r.log, r.spots, r.bad = Log{}, nil, false
	r.delim('{')
	r.key("job")
	r.number()
	r.key("events")
	r.delim('[')
	for closed := false; r.more(); {
		if len(r.log.Events) >= mostEvents {
			r.stop(fmt.Sprintf("it has more than %d events", mostEvents))
			return
		}
		e := r.event(closed)
		closed = closed || e.Kind == job.KindClosed
		if r.over || len(r.Problems) >= mostProblems {
			r.over = true
			return
		}
	}
	r.delim(']')
	r.delim('}')
	if !r.bad && !r.over {
		r.whole()
	}
}

// number reads the number of a job.
func (r *Reader) number() {
	n, ok := r.token().(json.Number)
	id, err := strconv.ParseInt(n.String(), 10, 64)
	switch {
	case r.over:
	case !ok || err != nil || id < 1:
		r.note(0, r.at, "the number of a job is a whole number from 1")
	case r.had[id]:
		r.log.Job = id
		r.note(0, r.at, "the number is there twice; each job of a record has its own")
	}
	r.log.Job, r.had[id] = id, true
	r.log.Spot = r.at
}

// whole looks at the log as a whole.
func (r *Reader) whole() {
	if len(r.log.Events) == 0 {
		r.note(0, r.log.Spot, "a job begins with an intake, and there is no event at all")
		return
	}
	if _, err := job.Fold(r.log.Events); err != nil {
		r.blame(err)
	}
}

// blame notes an error of job, at the event that it names.
func (r *Reader) blame(err error) {
	var bad *job.BadEvent
	if errors.As(err, &bad) && bad.Seq >= 1 && bad.Seq <= int64(len(r.spots)) {
		r.note(bad.Seq, r.spots[bad.Seq-1], bad.Err.Error())
		return
	}
	r.note(0, r.log.Spot, err.Error())
}

// note writes down what is wrong with the job that is being read.
func (r *Reader) note(event, at int64, says string) {
	r.bad = true
	r.Problems = append(r.Problems, Problem{r.log.Job, event, at, source.CleanLine(says)})
}

// stop notes what makes it senseless to read on.
func (r *Reader) stop(says string) { r.stopAt(r.at, says) }

func (r *Reader) stopAt(at int64, says string) {
	if !r.over {
		r.note(0, at, says)
	}
	r.over = true
}
