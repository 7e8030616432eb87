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
	all, err := c.ExtendPart(maker, o, 0, 1)
	if err != nil {
		return nil, err
	}
	return c.Extended(all), nil
}

// Extension is what a share of the machines show at each stage: by stage and test.
type Extension struct {
	share, shares int
	columns       map[Key]*column
}

// ExtendPart is the share-th of so many shares of Extend, counted from 0; each has a
// Maker of its own.
func (c *Cloud) ExtendPart(maker *virtual.Maker, o Options, share, shares int) (*Extension, error) {
	out := &Extension{share: share, shares: shares, columns: map[Key]*column{}}
	for i := range c.system.Circuit.Stages {
		if err := c.stage(out, maker, &c.system.Circuit.Stages[i], o); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// stage asks a share of the machines at one stage.
func (c *Cloud) stage(out *Extension, maker *virtual.Maker, s *tree.Stage, o Options) error {
	var tests []*tree.Test
	for _, test := range c.tests {
		if test.After == "" || slices.Contains(s.Work, test.After) {
			tests = append(tests, test)
			out.columns[Key{s.ID, test.ID}] = &column{test: test}
		}
	}
	for i := out.share; i < len(c.of); i += out.shares {
		h := c.hypotheses[c.of[i]]
		m, err := draw(maker, h, o, c.number[i])
		if err != nil {
			return err
		}
		for _, work := range s.Work {
			if err := m.Do(work); err != nil {
				return fmt.Errorf("%s: %w", h.Name(), err)
			}
		}
		for _, test := range tests {
			is, err := show(m, test, o.Meter)
			if err != nil {
				return fmt.Errorf("%s, %s: %w", s.ID, h.Name(), err)
			}
			column := out.columns[Key{s.ID, test.ID}]
			column.shown = append(column.shown, is)
		}
	}
	return nil
}

// Extended is the cloud with all shares of its extension. What shows the same as before
// on every machine is the same reading.
func (c *Cloud) Extended(parts ...*Extension) *Cloud {
	out := *c
	out.columns, out.stages = maps.Clone(c.columns), nil
	for i := range c.system.Circuit.Stages {
		s := &c.system.Circuit.Stages[i]
		out.stages = append(out.stages, s)
		for _, test := range c.tests {
			if key := (Key{s.ID, test.ID}); parts[0].columns[key] != nil {
				out.columns[key] = c.after(key, parts)
			}
		}
	}
	return &out
}

// after is a column of a stage, put together again.
func (c *Cloud) after(key Key, parts []*Extension) *column {
	all := &column{test: parts[0].columns[key].test, shown: make([]shown, len(c.of))}
	for _, p := range parts {
		for i, s := range p.columns[key].shown {
			all.shown[p.share+i*p.shares] = s
		}
	}
	if before := c.columns[Key{"", key.Test}]; before != nil && slices.Equal(before.shown, all.shown) {
		return before
	}
	all.finish(c.system)
	return all
}

// StageOf is the stage of a machine on which these pieces of work were done, in
// order: "" as it came in. Work that changes nothing in the circuit does not
// count; ok is false for work after which nobody knows what the machine shows.
func StageOf(sys *tree.System, done []string) (stage string, ok bool) {
	var work []string
	for _, w := range done {
		if sys.FindWork(w) == nil {
			return "", false // the trees were changed since
		}
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
