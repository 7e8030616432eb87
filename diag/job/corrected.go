package job

// corrected is an intake with what a correction says. The system and the trees are not
// corrected: every answer in the log is to a test of theirs.
func (in *Intake) corrected(by *Intake) *Intake {
	out := *by
	out.System, out.Digest = in.System, in.Digest
	return &out
}

// Described is what is known of the machine by a log: its intake, with the corrections
// that were not taken back; nil without an intake.
func Described(events []Event) *Intake {
	if len(events) == 0 || events[0].Intake == nil {
		return nil
	}
	gone := map[int64]bool{}
	for _, e := range events {
		if e.Undone != nil {
			gone[e.Undone.Seq] = true
		}
	}
	in := events[0].Intake
	for _, e := range events {
		if e.Corrected != nil && !gone[e.Seq] {
			in = in.corrected(e.Corrected)
		}
	}
	return in
}
