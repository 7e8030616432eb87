package prove

// draft is the machine of a draw before anything was broken.
type draft struct {
	system string
	number int
}

// sound says whether nobody would complain of the machine of a draw before
// anything was broken. Parts at the ends of their tolerances can add up to an
// engine that is slow by itself; with it nothing is learnt of a fault. A healthy
// machine is walked whatever it comes in with, and so is every machine when the
// usual values are moved, because then none is as its label says.
func (b *batch) sound(d Draw) (bool, error) {
	if len(d.Faults) == 0 || d.Shift != 0 {
		return true, nil
	}
	name := draft{b.unit.System, d.Number}
	if is, known := b.tech.sound[name]; known {
		return is, nil
	}
	d.Faults = nil
	m, err := b.maker.Build(d)
	if err != nil {
		return false, err
	}
	complaint, err := m.Complaint()
	if err != nil {
		return false, err
	}
	is := complaint == b.reach.system.Circuit.Unasked()
	b.tech.sound[name] = is
	return is, nil
}
