package job

import (
	"context"
	"fmt"
	"slices"
)

// Bin lists the pieces of the parts bin.
func (m *Memory) Bin(ctx context.Context) ([]Shelved, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []Shelved
	for _, s := range m.bin {
		out = append(out, s.apart())
	}
	return out, nil
}

// Shelve puts a piece that came without a job into the bin.
func (m *Memory) Shelve(ctx context.Context, piece Binned, at int64) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	n := int64(1)
	for _, s := range m.bin {
		if s.Job == 0 {
			n++
		}
	}
	s, err := Loose(n, piece, at)
	if err != nil {
		return "", err
	}
	m.bin = append(m.bin, s.apart())
	return s.Name, nil
}

// Discard takes a piece out of the bin for good.
func (m *Memory) Discard(ctx context.Context, name string, gone Gone) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	at := (&shelf{m.bin}).find(name)
	if at < 0 {
		return fmt.Errorf("piece %q: %w", name, ErrNoPiece)
	}
	s, err := Discard(m.bin[at], gone)
	if err != nil {
		return err
	}
	m.bin[at] = s
	return nil
}

// restock moves pieces as new events of a job say, all of them or none. log is
// the job's log with the new events.
func (m *Memory) restock(id int64, events []Event, log []line) error {
	try := &shelf{slices.Clone(m.bin)}
	err := Restock(try, id, events, func(seq int64) (Event, error) { return Decode(log[seq-1].text) })
	if err == nil {
		m.bin = try.pieces
	}
	return err
}

// shelf is the bin while events move pieces.
type shelf struct{ pieces []Shelved }

var _ Shelf = (*shelf)(nil)

func (s *shelf) find(name string) int {
	return slices.IndexFunc(s.pieces, func(p Shelved) bool { return p.Name == name })
}

// Piece gives the piece of that name.
func (s *shelf) Piece(name string) (Shelved, bool, error) {
	if at := s.find(name); at >= 0 {
		return s.pieces[at], true, nil
	}
	return Shelved{}, false, nil
}

// Put adds a piece behind all others.
func (s *shelf) Put(p Shelved) error {
	s.pieces = append(s.pieces, p.apart())
	return nil
}

// Change puts a piece in the place of the one of its name.
func (s *shelf) Change(p Shelved) error {
	s.pieces[s.find(p.Name)] = p
	return nil
}

// Remove takes a piece out.
func (s *shelf) Remove(name string) error {
	at := s.find(name)
	s.pieces = slices.Delete(s.pieces, at, at+1)
	return nil
}

// apart is a piece that shares nothing with s.
func (s Shelved) apart() Shelved {
	s.Shown = slices.Clone(s.Shown)
	return s
}
