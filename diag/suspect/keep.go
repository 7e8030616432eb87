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
const Format = 1

// kept is a cloud as it is written. Lists stand in the order of the system, so that the
// same cloud is the same bytes.
type kept struct {
	Format     int
	Complaint  string
	Hypotheses []Hypothesis
	Prior      []float64
	Of, Number []int
	Stages     []string
	Columns    []keptColumn
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
	out := kept{Format: Format, Complaint: c.complaint, Hypotheses: c.hypotheses, Prior: c.prior, Of: c.of, Number: c.number}
	for _, s := range c.stages {
		out.Stages = append(out.Stages, s.ID)
	}
	for _, stage := range append([]string{""}, out.Stages...) {
		for _, test := range c.tests {
			key := Key{stage, test.ID}
			column := c.columns[key]
			if column == nil {
				continue
			}
			k := keptColumn{Key: key, Same: stage != "" && column == c.columns[Key{"", test.ID}]}
			if !k.Same {
				k.put(column.shown)
			}
			out.Columns = append(out.Columns, k)
		}
	}
	return gob.NewEncoder(w).Encode(out)
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
	if err := gob.NewDecoder(r).Decode(&in); err != nil {
		return nil, fmt.Errorf("it can't be read: %w", err)
	}
	c := &Cloud{
		system: sys, complaint: in.Complaint, hypotheses: in.Hypotheses, prior: in.Prior, of: in.Of, number: in.Number,
		columns: map[Key]*column{},
	}
	if err := c.fits(in); err != nil {
		return nil, err
	}
	for _, id := range in.Stages {
		c.stages = append(c.stages, sys.Circuit.Stage(id))
	}
	for _, test := range sys.Tests {
		if test.Kind != tree.Worked {
			c.tests = append(c.tests, test)
		}
	}
	c.share()
	for _, k := range in.Columns {
		if k.Same {
			c.columns[k.Key] = c.columns[Key{"", k.Key.Test}]
			continue
		}
		column := &column{test: sys.Test(k.Key.Test), shown: make([]shown, len(c.of))}
		for i := range column.shown {
			column.shown[i] = shown{Kind(k.Kind[i]), k.Choice[i], k.Value[i], k.U[i]}
		}
		column.finish(sys)
		c.columns[k.Key] = column
	}
	return c, nil
}

// fits says whether what was read is of this system.
func (c *Cloud) fits(in kept) error {
	n := len(c.of)
	bad := in.Format != Format || n == 0 || len(c.number) != n || len(c.prior) != len(c.hypotheses) || len(c.hypotheses) == 0
	bad = bad || slices.ContainsFunc(c.of, func(h int) bool { return h < 0 || h >= len(c.hypotheses) })
	for _, h := range c.hypotheses {
		bad = bad || slices.ContainsFunc(h.Faults, func(f string) bool { return c.system.Fault(f) == nil })
	}
	bad = bad || slices.ContainsFunc(in.Stages, func(id string) bool { return c.system.Circuit.Stage(id) == nil })
	for _, k := range in.Columns {
		whole := len(k.Kind) == n && len(k.Choice) == n && len(k.Value) == n && len(k.U) == n
		bad = bad || c.system.Test(k.Key.Test) == nil || !whole && !k.Same
	}
	if bad {
		return errors.New("it is not of this system as it is now")
	}
	return nil
}
