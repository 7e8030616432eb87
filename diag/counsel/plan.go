package counsel

import "slices"

// comesAndGoes is how likely it must be that the fault is gone now for the plan to be
// shown.
const comesAndGoes = 0.3

// plan is how a fault that comes and goes is caught. Common practice, no source.
func (c *counsel) plan() []string {
	called := slices.Contains(c.facts.Intake.History, "hot")
	for _, s := range c.weighing.Ranked() {
		called = called || s.Gone && s.P >= comesAndGoes && len(c.readings) > 0
	}
	if !called {
		return nil
	}
	return []string{
		"Clip both leads on, so that the meter hangs on while it fails. Keep leads and hands clear of what turns and of what is hot.",
		"Set the meter to MIN/MAX, or have somebody watch it.",
		"Make it fail: let it get as hot as it does at work, outdoors or with the exhaust led off; then wiggle one wire and plug at a time.",
		"Read within seconds of the failure, before anything cools: first the volts at the battery, then where they are lost.",
		"A reading that jumps as one wire moves has found it. What reads well after it has cooled clears nothing.",
	}
}
