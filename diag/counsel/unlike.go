package counsel

// unlikely is how many answers must be slips, by what the likeliest machines show, for none
// of them to be like the one on the bench. One slip is asked for again and the rest still
// speaks; two at once are rarer than a machine that is not simulated.
const unlikely = 1.5

// What is said when no simulated machine is like the one on the bench.
const (
	unlikeAll   = "No simulated machine fits these answers: more than one fault, one that is not on the list, or readings from different tries. No suspect is named."
	unlikeFound = "What the trees have found stands."
)

// unlike says that the answers are unlike those of every simulated machine; empty while
// some are like them, or nothing is found. An answer that shows a fault beside the complaint does not count.
func (c *counsel) unlike() string {
	if len(c.pos.Verdict.Found) == 0 {
		return "" // with nothing found, what fits least badly is still worth a look
	}
	sum := 0.0
	for i, r := range c.readings {
		if !c.beside(r.Test) {
			sum += c.weighing.Odds[i]
		}
	}
	if sum < unlikely {
		return ""
	}
	return unlikeAll + " " + unlikeFound
}
