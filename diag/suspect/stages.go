package suspect

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Extend is the cloud with what its machines show at stages of work as well: those
// named, or all that the circuit names. o must be what it was built with.
func (c *Cloud) Extend(maker *virtual.Maker, o Options, stages ...string) (*Cloud, error) {
	all, err := c.ExtendPart(maker, o, 0, 1, stages...)
	if err != nil {
		return nil, err
	}
	return c.Extended(all), nil
}

// Extension is what a share of the machines show at stages, by stage and test.
type Extension struct {
	share, shares int
	stages        []*tree.Stage
	columns       map[Key]*column
}

// ExtendPart is the share-th of so many shares of Extend, counted from 0; each has a
// Maker of its own.
func (c *Cloud) ExtendPart(maker *virtual.Maker, o Options, share, shares int, stages ...string) (*Extension, error) {
	out := &Extension{share: share, shares: shares, columns: map[Key]*column{}}
	if len(stages) == 0 {
		for i := range c.system.Circuit.Stages {
			stages = append(stages, c.system.Circuit.Stages[i].ID)
		}
	}
	for _, id := range stages {
		s := StageNamed(c.system, id)
		if s == nil {
			return nil, fmt.Errorf("there is no stage %q of %s", id, c.system.ID)
		}
		if err := c.stage(out, maker, s, o); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// stage asks a share of the machines at one stage.
func (c *Cloud) stage(out *Extension, maker *virtual.Maker, s *tree.Stage, o Options) error {
	out.stages = append(out.stages, s)
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
		m.Done()
	}
	return nil
}

// Extended is the cloud with all shares of an extension. What shows the same as before on
// every machine is the same reading.
func (c *Cloud) Extended(parts ...*Extension) *Cloud {
	out := *c
	out.columns, out.stages = maps.Clone(c.columns), slices.Clone(c.stages)
	for _, s := range parts[0].stages {
		if !c.Knows(s.ID) {
			out.stages = append(out.stages, s)
		}
		for _, test := range c.tests {
			if key := (Key{s.ID, test.ID}); parts[0].columns[key] != nil {
				out.columns[key] = c.after(key, parts)
			}
		}
	}
	return &out
}

// Knows says whether it is known what the machines show at a stage.
func (c *Cloud) Knows(stage string) bool {
	return stage == "" || slices.ContainsFunc(c.stages, func(s *tree.Stage) bool { return s.ID == stage })
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

// then joins the work of a stage that the circuit does not name.
const then = " + "

// StageOf is the stage of a machine on which these pieces of work were done, in
// order: "" as it came in; one of the circuit; else the work itself, in one word. Work
// that changes nothing in the circuit does not count; ok is false when the system has no
// such work.
func StageOf(sys *tree.System, done []string) (stage string, ok bool) {
	var work []string
	for _, w := range done {
		if sys.FindWork(w) == nil {
			return "", false // the trees were changed since
		}
		if effective(sys, w) && !slices.Contains(work, w) {
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
	return strings.Join(work, then), true
}

// effective says whether a piece of work changes what the circuit shows.
func effective(sys *tree.System, work string) bool {
	return slices.ContainsFunc(sys.Circuit.Work, func(e tree.Effect) bool { return e.Work == work && len(e.Set)+len(e.Moves) > 0 })
}

// StageNamed is a stage as StageOf names it; nil when there is none. One that the
// circuit does not name is never offered.
func StageNamed(sys *tree.System, id string) *tree.Stage {
	if s := sys.Circuit.Stage(id); s != nil || id == "" {
		return s
	}
	out := &tree.Stage{ID: id, Work: strings.Split(id, then)}
	var titles []string
	for _, w := range out.Work {
		work := sys.FindWork(w)
		if work == nil || !effective(sys, w) {
			return nil
		}
		titles = append(titles, tree.InSentence(work.Title))
	}
	out.Title = "After this: " + strings.Join(titles, ", ")
	return out
}
