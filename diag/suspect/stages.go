package suspect

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Extend is the cloud with what its machines show at each stage of work as well. o
// must be what it was built with.
func (c *Cloud) Extend(maker *virtual.Maker, o Options) (*Cloud, error) {
	out := *c
	out.columns, out.stages = maps.Clone(c.columns), nil
	for i := range c.system.Circuit.Stages {
		if err := out.stage(maker, &c.system.Circuit.Stages[i], o); err != nil {
			return nil, err
		}
	}
	return &out, nil
}

// stage adds the columns of one stage. What shows the same as before on every
// machine is the same reading.
func (c *Cloud) stage(maker *virtual.Maker, s *tree.Stage, o Options) error {
	after := map[*tree.Test]*column{}
	for _, test := range c.tests {
		if test.After == "" || slices.Contains(s.Work, test.After) {
			after[test] = &column{test: test, shown: make([]shown, len(c.of))}
		}
	}
	for i, h := range c.of {
		m, err := c.draw(maker, c.hypotheses[h], o, c.number[i])
		if err != nil {
			return err
		}
		for _, work := range s.Work {
			if err := m.Do(work); err != nil {
				return fmt.Errorf("%s: %w", c.hypotheses[h].Name(), err)
			}
		}
		for test, column := range after {
			if column.shown[i], err = show(m, test, o.Meter); err != nil {
				return fmt.Errorf("%s, %s: %w", s.ID, c.hypotheses[h].Name(), err)
			}
		}
	}
	c.stages = append(c.stages, s)
	for test, column := range after {
		before := c.columns[Key{"", test.ID}]
		if before != nil && slices.Equal(before.shown, column.shown) {
			c.columns[Key{s.ID, test.ID}] = before
			continue
		}
		column.finish(c.system)
		c.columns[Key{s.ID, test.ID}] = column
	}
	return nil
}

// StageOf is the stage of a machine on which these pieces of work were done, in
// order: "" as it came in. Work that changes nothing in the circuit does not
// count; ok is false for work after which nobody knows what the machine shows.
func StageOf(sys *tree.System, done []string) (stage string, ok bool) {
	var work []string
	for _, w := range done {
		counts := slices.ContainsFunc(sys.Circuit.Work, func(e tree.Effect) bool { return e.Work == w && len(e.Set)+len(e.Moves) > 0 })
		if counts && !slices.Contains(work, w) {
			work = append(work, w)
		}
	}
	if len(work) == 0 {
		return "", true
	}
	for _, s := range sys.Circuit.Stages {
		if slices.Equal(s.Work, work) {
			return s.ID, true
		}
	}
	return "", false
}
