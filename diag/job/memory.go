package job

import (
	"context"
	"fmt"
	"sync"
)

// Memory is a Store that lasts as long as the program: for trying things out,
// for readings judged without a record, and for tests. The zero Memory is
// ready to use.
type Memory struct {
	mu   sync.Mutex
	jobs [][]line // job number less one
	bin  []Shelved
}

// line is an event as it would be on disk, so that callers share nothing with
// the store.
type line struct {
	kind Kind
	text []byte
}

var _ Store = (*Memory)(nil)

// Create begins a job.
func (m *Memory) Create(ctx context.Context, first []Event) (int64, error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	out, lines, err := encodeAll(0, false, first)
	if err != nil {
		return 0, err
	}
	id := int64(len(m.jobs)) + 1
	if err := m.restock(id, out, lines); err != nil {
		return 0, err
	}
	m.jobs = append(m.jobs, lines)
	return id, nil
}

// Append adds events to a job.
func (m *Memory) Append(ctx context.Context, id, expected int64, events []Event) ([]Event, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	log, err := m.log(id)
	if err != nil {
		return nil, err
	}
	last := int64(len(log))
	if expected != last {
		return nil, fmt.Errorf("job %d, event %d: %w", id, last, ErrConflict)
	}
	out, lines, err := encodeAll(last, isClosed(log), events)
	if err != nil {
		return nil, err
	}
	log = append(log, lines...)
	if err := m.restock(id, out, log); err != nil {
		return nil, err
	}
	m.jobs[id-1] = log
	return out, nil
}

// Load returns all events of a job.
func (m *Memory) Load(ctx context.Context, id int64) ([]Event, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	log, err := m.log(id)
	if err != nil {
		return nil, err
	}
	return decodeAll(log)
}

// Jobs lists all jobs by number.
func (m *Memory) Jobs(ctx context.Context) ([]Summary, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []Summary
	for i, log := range m.jobs {
		events, err := decodeAll(log)
		if err != nil {
			return nil, err
		}
		var closed *Closed
		for _, e := range events {
			if e.Closed != nil {
				closed = e.Closed
			}
		}
		out = append(out, Summarize(int64(i+1), events, closed))
	}
	return out, nil
}

func (m *Memory) log(id int64) ([]line, error) {
	if id < 1 || id > int64(len(m.jobs)) {
		return nil, fmt.Errorf("job %d: %w", id, ErrNoJob)
	}
	return m.jobs[id-1], nil
}

func encodeAll(last int64, closed bool, events []Event) ([]Event, []line, error) {
	out, err := Number(last, closed, events)
	if err != nil {
		return nil, nil, err
	}
	lines := make([]line, len(out))
	for i, e := range out {
		text, err := Encode(e)
		if err != nil {
			return nil, nil, err
		}
		lines[i] = line{e.Kind, text}
	}
	return out, lines, nil
}

func decodeAll(log []line) ([]Event, error) {
	out := make([]Event, len(log))
	for i, l := range log {
		e, err := Decode(l.text)
		if err != nil {
			return nil, err
		}
		out[i] = e
	}
	return out, nil
}

func isClosed(log []line) bool {
	for _, l := range log {
		if l.kind == KindClosed {
			return true
		}
	}
	return false
}
