package app

import (
	"maps"
	"slices"

	"benchlead/diag/tree"
)

// librarySaid is what `trees --json` prints. Keys are only ever added.
type librarySaid struct {
	Trees   []treeSaid   `json:"trees"`
	Systems []systemSaid `json:"systems"`
}

type treeSaid struct {
	ID      string     `json:"id"`
	Title   string     `json:"title"`
	Systems []string   `json:"systems"`
	Judges  []string   `json:"judges"`
	Begin   string     `json:"begin"`
	Steps   []stepSaid `json:"steps"`
}

type stepSaid struct {
	ID    string              `json:"id"`
	Kind  string              `json:"kind"`
	Of    string              `json:"of,omitempty"` // the test, work, fault or tree
	Says  string              `json:"says,omitempty"`
	Then  map[string]string   `json:"then,omitempty"`
	Next  string              `json:"next,omitempty"`
	Else  string              `json:"else,omitempty"`
	By    map[string][]string `json:"by,omitempty"`
	After []string            `json:"after,omitempty"`
}

type systemSaid struct {
	ID         string          `json:"id"`
	Title      string          `json:"title"`
	About      string          `json:"about"`
	Machine    string          `json:"machine"`
	Complaints []complaintSaid `json:"complaints"`
	Label      []fieldSaid     `json:"label"`
	Points     []namedSaid     `json:"points"`
	States     []namedSaid     `json:"states"`
	Setups     []namedSaid     `json:"setups"`
	Tests      []testSaid      `json:"tests"`
	Faults     []namedSaid     `json:"faults"`
	Repairs    []namedSaid     `json:"repairs"`
	HandBack   []string        `json:"hand_back"`
}

type namedSaid struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

type complaintSaid struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Trouble string   `json:"trouble"`
	Trees   []string `json:"trees"`
}

type fieldSaid struct {
	ID      string   `json:"id"`
	Ask     string   `json:"ask"`
	Unit    string   `json:"unit"`
	Options []string `json:"options,omitempty"`
}

type testSaid struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"`
	Kind     string   `json:"kind"`
	Function string   `json:"function,omitempty"`
	Red      string   `json:"red,omitempty"`
	Black    string   `json:"black,omitempty"`
	State    string   `json:"state,omitempty"`
	With     []string `json:"with,omitempty"`
	Unit     string   `json:"unit,omitempty"`
	From     []string `json:"worked_out_from,omitempty"`
	Outcomes []string `json:"outcomes"`
}

func sayLibrary(lib *tree.Library) librarySaid {
	out := librarySaid{Trees: []treeSaid{}, Systems: []systemSaid{}}
	for _, id := range slices.Sorted(maps.Keys(lib.Trees)) {
		out.Trees = append(out.Trees, sayTree(lib.Trees[id]))
	}
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		out.Systems = append(out.Systems, saySystem(lib, lib.Systems[id]))
	}
	return out
}

func sayTree(t *tree.Tree) treeSaid {
	out := treeSaid{ID: t.ID, Title: t.Title, Systems: some(t.Systems), Judges: some(t.Judges), Begin: t.Begin, Steps: []stepSaid{}}
	for _, s := range t.Steps {
		said := stepSaid{ID: s.ID, Kind: string(s.Kind), Of: s.Test + s.Work + s.Fault + s.Tree, Says: s.Say, Then: s.Then, Next: s.Next, Else: s.Else, After: s.After}
		for _, e := range s.By {
			if said.By == nil {
				said.By = map[string][]string{}
			}
			said.By[e.Test] = e.Bands
		}
		out.Steps = append(out.Steps, said)
	}
	return out
}

func saySystem(lib *tree.Library, s *tree.System) systemSaid {
	out := systemSaid{
		ID: s.ID, Title: s.Title, About: s.About, Machine: s.Machine, HandBack: some(s.HandBack),
		Complaints: []complaintSaid{}, Label: []fieldSaid{}, Points: []namedSaid{}, States: []namedSaid{}, Setups: []namedSaid{},
		Tests: []testSaid{}, Faults: []namedSaid{}, Repairs: []namedSaid{},
	}
	for _, c := range s.Complaints {
		out.Complaints = append(out.Complaints, complaintSaid{ID: c.ID, Title: c.Title, Trouble: c.Trouble, Trees: some(c.Trees)})
	}
	for _, f := range s.Label {
		out.Label = append(out.Label, fieldSaid{ID: f.ID, Ask: f.Ask, Unit: f.Unit, Options: f.Options})
	}
	for _, x := range s.Points {
		out.Points = append(out.Points, namedSaid{x.ID, x.Title})
	}
	for _, x := range s.States {
		out.States = append(out.States, namedSaid{x.ID, x.Title})
	}
	for _, x := range s.Setups {
		out.Setups = append(out.Setups, namedSaid{x.ID, x.Title})
	}
	for _, t := range s.Tests {
		out.Tests = append(out.Tests, testSaid{
			ID: t.ID, Title: t.Title, Kind: string(t.Kind), Function: string(t.Function), Red: t.Red, Black: t.Black,
			State: t.State, With: t.With, Unit: t.Unit, From: t.Inputs(), Outcomes: some(t.Outcomes()),
		})
	}
	for _, f := range s.Faults {
		out.Faults = append(out.Faults, namedSaid{f.ID, f.Title})
	}
	for _, r := range lib.RepairsFor(s.ID) {
		out.Repairs = append(out.Repairs, namedSaid{r.ID, r.Title})
	}
	return out
}

// some is a list that is printed as [] when it is empty.
func some(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
