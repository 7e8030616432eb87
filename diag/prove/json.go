package prove

// Figures is the report in numbers, as it is printed in JSON.
type Figures struct {
	Trees  []TreeFigures `json:"trees"`
	Totals Counts        `json:"totals"`
}

// TreeFigures is one tree in one system.
type TreeFigures struct {
	Tree   string         `json:"tree"`
	System string         `json:"system"`
	Faults []FaultFigures `json:"faults"`
}

// FaultFigures is one fault: one that the tree judges, or another of which it
// says something wrong.
type FaultFigures struct {
	Fault string `json:"fault"`
	Counts
	Minutes float64 `json:"minutes"` // to the verdict, on average
}

// Figures is the report in numbers. A fault that never shows has no machines.
func (r Report) Figures() Figures {
	out := Figures{Trees: []TreeFigures{}, Totals: r.Totals}
	for _, t := range r.Trees {
		tf := TreeFigures{Tree: t.Tree, System: t.System, Faults: []FaultFigures{}}
		for _, f := range t.Faults {
			tf.Faults = append(tf.Faults, FaultFigures{Fault: f.Fault, Counts: f.Counts, Minutes: f.Minutes})
		}
		for _, id := range t.Hidden {
			tf.Faults = append(tf.Faults, FaultFigures{Fault: id})
		}
		out.Trees = append(out.Trees, tf)
	}
	return out
}
