package counsel

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Shop is what the shop's own closed and proved jobs on a system have shown.
type Shop struct {
	Jobs  int            // proved jobs
	Found map[string]int // by fault: in how many of them it was found
	// Last are, by complaint, the faults that were found in each of them, the newest
	// job first.
	Last map[string][][]string
}

// Weight is how many jobs of the shop's own the list of how common faults are counts
// for. Judgement: after so many jobs both weigh the same.
const Weight = 30

// moved is the cloud with the odds as what the owner tells and the shop's own jobs make
// them, and what that came to in words.
func moved(cloud *suspect.Cloud, history []string, shop Shop) (*suspect.Cloud, []string) {
	sys := cloud.System()
	times, lines := map[string]float64{}, []string(nil)
	by := func(fault string, by float64) {
		if times[fault] == 0 {
			times[fault] = 1
		}
		times[fault] *= by
	}
	for _, t := range sys.Circuit.Told {
		if !slices.Contains(history, t.History) {
			continue
		}
		for _, f := range t.Times {
			by(f.Fault, f.By)
		}
		lines = append(lines, toldLine(sys, t))
	}
	own := ofShop(sys, shop)
	for _, f := range sys.Circuit.Faults {
		if own[f.Fault] != 0 {
			by(f.Fault, own[f.Fault])
		}
	}
	if line := shopLine(sys, shop); line != "" {
		lines = append(lines, line)
	}
	if len(times) == 0 {
		return cloud, lines
	}
	return cloud.Reweighed(func(h suspect.Hypothesis) float64 { return together(h, times) }), lines
}

// together is what the odds of a hypothesis are multiplied by: the mean by ratio of
// those of its faults.
func together(h suspect.Hypothesis, times map[string]float64) float64 {
	if len(h.Faults) == 0 {
		return 1
	}
	sum := 0.0
	for _, f := range h.Faults {
		if by := times[f]; by > 0 {
			sum += math.Log(by)
		}
	}
	return math.Exp(sum / float64(len(h.Faults)))
}

// ofShop is by how much the shop's own jobs move each fault: the share in which it was
// found there and the share of the list, weighed by the jobs behind them.
func ofShop(sys *tree.System, shop Shop) map[string]float64 {
	if shop.Jobs == 0 {
		return nil
	}
	sum := 0.0
	for _, f := range sys.Circuit.Faults {
		sum += f.Common
	}
	out := map[string]float64{}
	for _, f := range sys.Circuit.Faults {
		share := f.Common / sum
		out[f.Fault] = (share*Weight + float64(shop.Found[f.Fault])) / (Weight + float64(shop.Jobs)) / share
	}
	return out
}

func shopLine(sys *tree.System, shop Shop) string {
	var found []string
	for _, f := range sys.Faults {
		if n := shop.Found[f.ID]; n > 0 {
			found = append(found, fmt.Sprintf("%s %d", f.Title, n))
		}
	}
	if len(found) == 0 {
		return ""
	}
	return fmt.Sprintf("This shop's own proved jobs (%d, against the list's weight of %d): %s.", shop.Jobs, Weight, strings.Join(found, ", "))
}

// toldLine says what a line of the history makes likelier, and what less likely.
func toldLine(sys *tree.System, t tree.Told) string {
	var more, less []tree.Times
	for _, one := range t.Times {
		if one.By < 1 {
			less = append(less, one)
		} else {
			more = append(more, one)
		}
	}
	var parts []string
	if len(more) > 0 {
		parts = append(parts, "likelier: "+timesOf(sys, more))
	}
	if len(less) > 0 {
		parts = append(parts, "less likely: "+timesOf(sys, less))
	}
	return fmt.Sprintf("\"%s\" makes %s.", lineOf(sys, t.History), strings.Join(parts, "; "))
}

func lineOf(sys *tree.System, history string) string {
	for _, line := range sys.History {
		if line.Name == history && line.Title != "" {
			return line.Title
		}
	}
	return history
}

func timesOf(sys *tree.System, times []tree.Times) string {
	var out []string
	for _, t := range times {
		out = append(out, fmt.Sprintf("%s (%g times)", sys.Fault(t.Fault).Title, t.By))
	}
	return strings.Join(out, ", ")
}
