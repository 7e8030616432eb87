package job

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Encode writes an event as one line of JSON without the line end: fields in a
// fixed order, map keys sorted, so that equal events give equal bytes. An event
// that passes Check can always be encoded, and comes back from Decode unchanged.
func Encode(e Event) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(e); err != nil {
		return nil, &BadEvent{Seq: e.Seq, Kind: e.Kind, Err: err}
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// Decode reads what Encode wrote. Fields it doesn't know are passed over: an
// event of a kind unknown here is refused by Check and Fold.
func Decode(line []byte) (Event, error) {
	var e Event
	if err := json.Unmarshal(line, &e); err != nil {
		return Event{}, fmt.Errorf("reading an event back: %w", err)
	}
	return e, nil
}

// Canonical writes events one to a line, so that two logs are equal when their
// bytes are. An event that can't be encoded (see Check) gives a line that says
// so and equals no other event's.
func Canonical(events []Event) []byte {
	var out bytes.Buffer
	for _, e := range events {
		line, err := Encode(e)
		if err != nil {
			line = fmt.Appendf(nil, "%q", err.Error())
		}
		out.Write(line)
		out.WriteByte('\n')
	}
	return out.Bytes()
}

// Timeless is a copy of the events with every At zero, for comparing logs that
// were made at different times.
func Timeless(events []Event) []Event {
	out := make([]Event, len(events))
	for i, e := range events {
		e.At = 0
		out[i] = e
	}
	return out
}
