package tree

import "slices"

// A shared file serves systems that differ. What it only points at (the test that
// would tell, faults that are masked or cleared) may be in one system and not in
// another: there it is left out. What no system has is still reported.

// catalogue is the ids of tests and faults of all systems and shared files. In a
// part of a library the others aren't known: what the system lacks is theirs.
type catalogue struct {
	tests, faults set
	part          bool
}

func (b *builder) catalogue() catalogue {
	c := catalogue{set{}, set{}, b.wanted != ""}
	note := func(all contents) {
		for _, t := range all.Tests {
			c.tests[t.Test.Text] = true
		}
		for _, f := range all.Faults {
			c.faults[f.Fault.Text] = true
		}
	}
	for _, s := range b.systemShapes {
		note(s.contents)
	}
	for _, s := range b.sharedShapes {
		note(s.contents)
	}
	return c
}

// fitted is what a shared file brings into a system that has all of these.
func (c catalogue) fitted(shared, all contents) contents {
	tests, faults := c.lacks(all)
	out := shared
	out.Tests = slices.Clone(shared.Tests)
	for i := range out.Tests {
		t := &out.Tests[i]
		t.Bands, t.Choices = slices.Clone(t.Bands), slices.Clone(t.Choices)
		for k := range t.Bands {
			t.Bands[k].Clears = without(t.Bands[k].Clears, faults)
			t.Bands[k].Take = unless(t.Bands[k].Take, tests)
		}
		for k := range t.Choices {
			t.Choices[k].Clears = without(t.Choices[k].Clears, faults)
			t.Choices[k].Take = unless(t.Choices[k].Take, tests)
		}
	}
	out.Faults = slices.Clone(shared.Faults)
	for i := range out.Faults {
		out.Faults[i].Masks = without(out.Faults[i].Masks, faults)
	}
	out.Agree = nil
	for _, a := range shared.Agree {
		if a.Each = without(a.Each, tests); len(a.Each) > 0 && !tests(a.Most) {
			out.Agree = append(out.Agree, a)
		}
	}
	return out
}

// lacks tells the tests and the faults of other systems that this one hasn't.
func (c catalogue) lacks(all contents) (test, fault func(word) bool) {
	tests, faults := set{}, set{}
	for _, t := range all.Tests {
		tests[t.Test.Text] = true
	}
	for _, f := range all.Faults {
		faults[f.Fault.Text] = true
	}
	test = func(w word) bool { return !tests[w.Text] && (c.part || c.tests[w.Text]) }
	fault = func(w word) bool { return !faults[w.Text] && (c.part || c.faults[w.Text]) }
	return test, fault
}

func without(list []word, absent func(word) bool) []word {
	return slices.DeleteFunc(slices.Clone(list), absent)
}

func unless(w word, absent func(word) bool) word {
	if absent(w) {
		return word{}
	}
	return w
}
