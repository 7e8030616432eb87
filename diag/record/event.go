package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"unicode/utf8"

	"benchlead/diag/job"
	"benchlead/diag/source"
)

// event reads one event of the job that is being read. One that is wrong is noted
// and kept, so that those after it keep their numbers.
func (r *Reader) event(closed bool) job.Event {
	raw, at := r.raw()
	if r.over {
		return job.Event{}
	}
	seq := int64(len(r.log.Events)) + 1
	e, err := taken(raw)
	if err == nil && e.Seq != seq {
		err = fmt.Errorf("its number is %d, and it stands where event %d belongs", e.Seq, seq)
	}
	if err == nil {
		_, err = job.Number(seq-1, closed, []job.Event{e})
	}
	if err == nil {
		err = sums(e)
	}
	if err != nil {
		var in *inside
		var bad *job.BadEvent
		switch {
		case errors.As(err, &in):
			r.note(seq, at+in.at, in.says)
		case errors.As(err, &bad):
			r.note(seq, at, bad.Err.Error())
		default:
			r.note(seq, at, err.Error())
		}
	}
	r.log.Events, r.spots = append(r.log.Events, e), append(r.spots, at)
	return e
}

// inside is what is wrong within an event, and at which of its bytes.
type inside struct {
	at   int64
	says string
}

func (i *inside) Error() string { return i.says }

// taken is the event that a piece of JSON says, if nothing of it would be lost.
func taken(raw []byte) (job.Event, error) {
	if len(raw) > mostEvent {
		return job.Event{}, fmt.Errorf("it has %d bytes, more than the %d that an event may have", len(raw), mostEvent)
	}
	if at := notUTF8(raw); at >= 0 {
		return job.Event{}, &inside{int64(at), "it is not UTF-8 here"}
	}
	e, err := job.Decode(raw)
	if err != nil {
		return job.Event{}, ofType(raw, err)
	}
	again, err := job.Encode(e)
	if err != nil {
		return job.Event{}, err
	}
	// Most events are as they were written, with no text that needs a look.
	if bytes.Equal(raw, again) && !bytes.Contains(raw, []byte(`\`)) && source.Clean(string(raw)) == string(raw) {
		return e, nil
	}
	return e, compare(raw, again)
}

func notUTF8(raw []byte) int {
	for at := 0; at < len(raw); {
		r, size := utf8.DecodeRune(raw[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return -1
}

// ofType says what could not be read, by the name of its field.
func ofType(raw []byte, err error) error {
	var wrong *json.UnmarshalTypeError
	if !errors.As(err, &wrong) {
		return err
	}
	what := wrong.Field
	if what == "" {
		what = "an event"
	}
	return &inside{beginning(raw, wrong.Offset), fmt.Sprintf("%s can't be: %s", what, cut(wrong.Value, 40))}
}

// beginning is where the token begins that ends at a byte, or holds it.
func beginning(raw []byte, end int64) int64 {
	c := comparison{raw: raw, dec: json.NewDecoder(bytes.NewReader(raw))}
	for c.dec.InputOffset() < end {
		if _, err := c.next(); err != nil {
			break
		}
	}
	return c.at
}
