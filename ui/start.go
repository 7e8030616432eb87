package ui

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// start is the way from what is wrong to a tree: in three answers, or in words.
// Without troubles in the library the system is asked for outright.
type start struct {
	trouble string // chosen; "" when words were typed
	words   string // searched for; "" when a trouble was chosen
}

// Match is one complaint of one system.
type Match struct {
	System    *tree.System
	Complaint tree.Complaint
}

// toTree are the questions that lead to a system and its complaint. The system
// is nil until they are answered.
func (i *Intake) toTree() ([]item, *tree.System) {
	sys := i.lib.Systems[i.in.System]
	if len(i.lib.Troubles) == 0 || len(i.lib.Systems) < 2 {
		items := []item{i.askSystem()}
		if sys == nil {
			return items, nil
		}
		return append(items, askComplaint(sys.Complaints)), sys
	}
	items := []item{i.askTrouble()}
	switch {
	case i.start.words != "":
		items = append(items, i.askFound())
	case i.start.trouble != "":
		items = append(items, i.askMachine())
		if more := ofTrouble(sys, i.start.trouble); len(more) > 1 {
			items = append(items, askComplaint(more))
		}
	}
	if i.in.Complaint == "" {
		return items, nil
	}
	return items, sys
}

// askTrouble asks what is wrong, by a number or in words that are looked for in
// all complaints of all systems.
func (i *Intake) askTrouble() item {
	var ids, choices []string
	for _, t := range i.lib.Troubles {
		if !i.anyHas(t.ID) {
			continue
		}
		ids = append(ids, t.ID)
		choices = append(choices, fmt.Sprintf("%d %s", len(ids), t.Title))
	}
	return item{
		Question: Question{Title: "What is wrong (a number, or a word or two to look for)", twice: true, Choices: choices, Ask: "a number of the list, or a word or two", Mistake: mistakeTrouble, About: "What the owner says of it. Nobody can say: \"check over\" is among them. Words are looked for in all complaints, and kept as the owner's."},
		set: func(in *job.Intake, text string) error {
			chosen := start{words: text}
			id, err := among(ids, text)
			switch {
			case err == nil && (isDigits(text) || id == text):
				chosen = start{trouble: id}
			case isDigits(text):
				return err
			case len([]rune(text)) < 2:
				return fmt.Errorf("%q is too short to be looked for; type a word, or a number of the list", text)
			case len(Search(i.lib, text)) == 0:
				return fmt.Errorf("nothing here is called %q; try fewer words, or a number of the list", text)
			}
			if chosen != i.start {
				setSystem(in, "")
			}
			i.start = chosen
			return nil
		},
	}
}

// askMachine asks which of the machines that have such a complaint it is.
func (i *Intake) askMachine() item {
	var ids, choices, tells, titles []string
	for _, id := range systemIDs(i.lib) {
		if s := i.lib.Systems[id]; len(ofTrouble(s, i.start.trouble)) > 0 {
			ids, tells, titles = append(ids, id), append(tells, s.Title+": "+s.About), append(titles, s.Title)
			choices = append(choices, fmt.Sprintf("%d %s: %s", len(ids), s.Title, s.Machine))
		}
	}
	q := Question{Title: "On which machine", Choices: choices, Tells: tells, titles: titles, Mistake: mistakeMachine, About: "What it has to start, to charge and to stop settles which tests are asked."}
	return item{
		Question: q.unsure(nearestMachine),
		set: func(in *job.Intake, text string) error {
			id, err := among(ids, text)
			if err != nil {
				return err
			}
			setSystem(in, id)
			if all := ofTrouble(i.lib.Systems[id], i.start.trouble); len(all) == 1 {
				in.Complaint = all[0].ID
			}
			return nil
		},
	}
}

// askFound asks which of the complaints that were found it is.
func (i *Intake) askFound() item {
	found := Search(i.lib, i.start.words)
	found = found[:min(len(found), most)]
	var ids, choices, tells []string
	for n, k := range found {
		ids = append(ids, k.System.ID+" "+k.Complaint.ID)
		tells = append(tells, k.System.Title+": "+k.System.About)
		choices = append(choices, fmt.Sprintf("%d %s: %s", n+1, k.Complaint.Title, k.System.Title))
	}
	q := Question{Title: "Which of these", Choices: choices, Tells: tells, Mistake: mistakeTrouble, About: "What comes nearest to what the owner says, on this kind of machine; \"back\" looks for other words."}
	return item{
		Question: q.unsure(nearestMachine),
		set: func(in *job.Intake, text string) error {
			id, err := among(ids, text)
			if err != nil {
				return fmt.Errorf("type the number of one of them; go back to look for other words")
			}
			k := found[slices.Index(ids, id)]
			setSystem(in, k.System.ID)
			in.Complaint = k.Complaint.ID
			if said := i.start.words; strings.ContainsAny(said, " ") { // one word is looked for, more are the owner's
				in.Words = said
			}
			return nil
		},
	}
}

// most is how many complaints a search shows: what a small screen holds.
const most = 14

// anyHas says whether some system has a complaint of that trouble.
func (i *Intake) anyHas(trouble string) bool {
	for _, s := range i.lib.Systems {
		if len(ofTrouble(s, trouble)) > 0 {
			return true
		}
	}
	return false
}

// systemIDs are the ids of all systems, in the order of their titles.
func systemIDs(lib *tree.Library) []string {
	return slices.SortedFunc(maps.Keys(lib.Systems), func(a, b string) int {
		return strings.Compare(lib.Systems[a].Title, lib.Systems[b].Title)
	})
}

func ofTrouble(s *tree.System, trouble string) []tree.Complaint {
	if s == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(s.Complaints), func(c tree.Complaint) bool { return c.Trouble != trouble })
}

func isDigits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}
