package counsel

// unlikely is how many answers must be slips, by what the likeliest machines show, for none
// of them to be like the one on the bench. One slip is asked for again and the rest still
// speaks; two at once are rarer than a machine that is not simulated.
const unlikely = 1.5

// What is said when no simulated machine is like the one on the bench.
const (
	unlikeAll   = "No simulated machine fits these answers: more than one fault, one that is not on the list, or readings from different tries. No suspect is named."
	unlikeFound = "What the trees have found stands."
	noneFits    = "Nothing of the list fits what was read; these fit least badly. Take the readings again; where they stay, more than one thing is wrong, or one that the list does not have."
)

// unlike says that the answers are unlike those of every simulated machine; empty while
// some are like them. An answer that shows a fault beside the complaint does not count.
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

// rare is how likely a suspect must be to be looked at for one that fits: what is rarer
// than that is likelier a slip of the meter.
const rare = 0.01

// nothingFits says that the answers rule out every simulated machine of all that is likely.
func (c *counsel) nothingFits() bool {
	if len(c.readings) == 0 {
		return false
	}
	ranked := c.weighing.Ranked()
	for i, s := range ranked {
		if i > 0 && s.P < rare {
			break
		}
		if a := c.weighing.Account(c.index(s.Hypothesis)); a.Still > 0 || a.OutCount == 0 {
			return false
		}
	}
	return len(ranked) > 0
}
