package report

import (
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Standing is the verdict as a job stands: Sentence until something is repaired, and
// then whether the repair is proved. It is harmless to print.
func Standing(lib *tree.Library, p walk.Position, facts job.Facts) string {
	if len(facts.Repaired) == 0 || len(p.Verdict.Found) > 0 {
		return Sentence(p.Verdict, p.System, complained(facts))
	}
	parts := []string{provedSentence(lib, p, facts)}
	if s := openSentence(neverTested(p, walk.Unproved(lib, p, facts))); s != "" {
		parts = append(parts, s)
	}
	if s := defaultSentence(p.Verdict, p.System); s != "" {
		parts = append(parts, s)
	}
	return source.CleanLine(strings.Join(parts, " "))
}

// provedSentence says of a job without findings whether what was found is shown to be
// gone.
func provedSentence(lib *tree.Library, p walk.Position, facts job.Facts) string {
	var gone, open []string
	unproved := walk.Unproved(lib, p, facts)
	for _, id := range facts.EverFound {
		f := p.System.Fault(id)
		switch {
		case f == nil:
		case slices.Contains(unproved, f):
			open = append(open, tree.InSentence(f.Title))
		case p.Verdict.Clears(id):
			gone = append(gone, tree.InSentence(f.Title))
		}
	}
	var out []string
	if len(gone) > 0 {
		out = append(out, "Shown to be gone by new readings: "+namedBy(gone, "; ")+".")
	}
	if len(open) > 0 {
		out = append(out, "Repaired, and not yet shown to be gone: "+namedBy(open, "; ")+".")
	}
	if len(out) == 0 {
		return "No fault is shown after the repair."
	}
	return strings.Join(out, " ")
}

// neverTested is a verdict less what was cleared before the repair, and what was found
// and repaired: that is told apart.
func neverTested(p walk.Position, repaired []*tree.Fault) walk.Verdict {
	v := p.Verdict
	told := func(f *tree.Fault) bool { return slices.Contains(p.TestedBefore, f) || slices.Contains(repaired, f) }
	v.Untested = slices.DeleteFunc(slices.Clone(v.Untested), func(u walk.Untested) bool { return len(u.Doubt) == 0 && told(u.Fault) })
	v.Masked = slices.DeleteFunc(slices.Clone(v.Masked), func(m walk.Masking) bool { return told(m.Fault) })
	return v
}
