package suspect

import (
	"encoding/gob"
	"errors"
	"fmt"
	"io"
	"slices"

	"benchlead/diag/tree"
)

// Format is raised when what Write writes, or what the machines behind it show, changes
// in a way that the trees don't tell of.
const Format = 5

// kept is a cloud as it is written, and then come its columns one by one. Lists stand in
// the order of the system, so that the same cloud is the same bytes.
type kept struct {
	Format     int
	Complaint  string
	Hypotheses []Hypothesis
	Prior      []float64
	Of, Number []int
	Part       []float64
	Stages     []string
	Columns    int
}

// keptColumn is a column by its parts. Same is the key's column of the machine as it
// came, where that shows the same.
type keptColumn struct {
	Key          Key
	Same         bool
	Kind, Choice []uint8
	Value, U     []float32
}

// Write writes a cloud so that Read can read it again.
func (c *Cloud) Write(w io.Writer) error {
	out := kept{Format: Format, Complaint: c.complaint, Hypotheses: c.hypotheses, Prior: c.prior, Of: c.of, Number: c.number, Part: c.part}
	for _, s := range c.stages {
		out.Stages = append(out.Stages, s.ID)
	}
	keys := c.keys()
	out.Columns = len(keys)
	to := gob.NewEncoder(w)
	err := to.Encode(out)
	for _, key := range keys {
		k := keptColumn{Key: key, Same: key.Stage != "" && c.columns[key] == c.columns[Key{"", key.Test}]}
		if !k.Same {
			k.put(c.columns[key].shown)
		}
		if err == nil {
			err = to.Encode(k)
		}
	}
	return err
}

// keys are those of all columns, by stage, in the order of the system.
func (c *Cloud) keys() []Key {
	var out []Key
	for _, stage := range append([]*tree.Stage{{}}, c.stages...) {
		for _, test := range c.tests {
			if key := (Key{stage.ID, test.ID}); c.columns[key] != nil {
				out = append(out, key)
			}
		}
	}
	return out
}

func (k *keptColumn) put(all []shown) {
	for _, s := range all {
		k.Kind, k.Choice = append(k.Kind, uint8(s.kind)), append(k.Choice, s.choice)
		k.Value, k.U = append(k.Value, s.value), append(k.U, s.u)
	}
}

// Read reads a cloud of a system. The error says that it is none, or not of this
// system as it is now.
func Read(r io.Reader, sys *tree.System) (*Cloud, error) {
	var in kept
	from := gob.NewDecoder(r)
	if err := from.Decode(&in); err != nil {
		return nil, fmt.Errorf("it can't be read: %w", err)
	}
	c := &Cloud{
		system: sys, complaint: in.Complaint, hypotheses: in.Hypotheses, prior: in.Prior, of: in.Of, number: in.Number, part: in.Part,
		columns: map[Key]*column{},
	}
	if err := c.fits(in); err != nil {
		return nil, err
	}
	for _, id := range in.Stages {
		c.stages = append(c.stages, StageNamed(sys, id))
	}
	for _, test := range sys.Tests {
		if test.Kind != tree.Worked {
			c.tests = append(c.tests, test)
		}
	}
	c.share()
	for range in.Columns {
		var k keptColumn
		if err := from.Decode(&k); err != nil {
			return nil, fmt.Errorf("it can't be read: %w", err)
		}
		if err := c.take(k); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// take puts a column in.
func (c *Cloud) take(k keptColumn) error {
	n := len(c.of)
	whole := len(k.Kind) == n && len(k.Choice) == n && len(k.Value) == n && len(k.U) == n
	before := c.columns[Key{"", k.Key.Test}]
	switch {
	case c.system.Test(k.Key.Test) == nil || k.Same && before == nil || !k.Same && !whole:
		return errOther
	case k.Same:
		c.columns[k.Key] = before
		return nil
	}
	column := &column{test: c.system.Test(k.Key.Test), shown: make([]shown, n)}
	for i := range column.shown {
		column.shown[i] = shown{Kind(k.Kind[i]), k.Choice[i], k.Value[i], k.U[i]}
	}
	column.finish(c.system)
	c.columns[k.Key] = column
	return nil
}

var errOther = errors.New("it is not of this system as it is now")

// fits says whether what was read is of this system.
func (c *Cloud) fits(in kept) error {
	n := len(c.of)
	bad := in.Format != Format || n == 0 || len(c.number) != n || len(c.part) != n || len(c.prior) != len(c.hypotheses) || len(c.hypotheses) == 0
	bad = bad || slices.ContainsFunc(c.of, func(h int) bool { return h < 0 || h >= len(c.hypotheses) })
	for _, h := range c.hypotheses {
		bad = bad || slices.ContainsFunc(h.Faults, func(f string) bool { return c.system.Fault(f) == nil })
	}
	bad = bad || slices.ContainsFunc(in.Stages, func(id string) bool { return StageNamed(c.system, id) == nil })
	if bad {
		return errOther
	}
	return nil
}
