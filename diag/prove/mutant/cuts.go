package mutant

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/tree"
)

// factors are what cuts are multiplied by: much too low and much too high for
// whatever a cut tells apart.
var factors = []string{"0.7", "1.4"}

// cuts makes mutants of every cut of the tests in the file.
func (p *page) cuts(top *yaml.Node) {
	for _, test := range items(value(top, "tests")) {
		for i, band := range items(value(test, "bands")) {
			if cut := value(band, "below"); cut != nil && !p.zero(word(test, "test"), i) {
				p.cut(word(test, "test"), word(band, "band"), cut)
			}
		}
	}
}

// cut makes a mutant of one cut for each factor. The formula stays as it is
// written, in brackets.
func (p *page) cut(test, band string, cut *yaml.Node) {
	from, to := p.span(cut)
	was := strings.Join(strings.Fields(cut.Value), " ")
	for _, factor := range factors {
		now := fmt.Sprintf("%s * (%s)", factor, was)
		p.add(Mutant{
			Kind: Cut, Name: fmt.Sprintf("cut %s (%s) x%s", test, band, factor), Place: p.place(cut),
			Says:  fmt.Sprintf("below: %s instead of %s", now, was),
			Touch: Touch{Test: test},
		}, edit{from, to, inQuotes(now) + strings.Repeat("\n", strings.Count(p.Text[from:to], "\n"))})
	}
}

// zero says whether a cut is nought with every label left at its defaults: times
// anything it stays what it is.
func (p *page) zero(test string, band int) bool {
	nought := false
	for _, sys := range p.lib.Systems {
		t := sys.Test(test)
		if t == nil || band >= len(t.Bands) {
			continue
		}
		if cut, err := t.Bands[band].Cut(usual(sys)); err != nil || cut != 0 {
			return false
		}
		nought = true
	}
	return nought
}

// inQuotes is a text as YAML reads it back.
func inQuotes(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// healthy says which bands of a test a healthy machine comes out in, with the
// label left at its defaults; none where the test doesn't say.
func healthy(sys *tree.System, t *tree.Test) []string {
	if t.Healthy == nil {
		return nil
	}
	values := usual(sys)
	low, high, err := t.Healthy.Limits(values)
	if err != nil {
		return nil
	}
	var out []string
	for _, band := range t.Bands {
		top, err := band.Cut(values)
		if err != nil {
			return nil
		}
		if low < top {
			out = append(out, band.Name)
		}
		if high <= top {
			break
		}
	}
	return out
}
