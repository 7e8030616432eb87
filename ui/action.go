package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Verb is what the tech wants done.
type Verb string

// The verbs. Their text is what is typed in plain lines.
const (
	Answer Verb = ""       // answer the current test, or Test
	Yes    Verb = "yes"    // confirm make-safe, acknowledge a danger
	Done   Verb = "done"   // a piece of work or a repair is done
	Pass   Verb = "pass"   // can't or won't do the current test or work
	Keep   Verb = "keep"   // stand by a value that looked impossible
	Undo   Verb = "undo"   // take the last answer back
	Note   Verb = "note"   // write something down
	Take   Verb = "take"   // take another test, or one again
	Choose Verb = "choose" // a repair path, by number
	Close  Verb = "close"  // end the job, by number of the outcome
	Why    Verb = "why"    // explain this test
	Left   Verb = "left"   // what is not tested yet
	Found  Verb = "found"  // findings and readings so far
	Paths  Verb = "paths"  // repair paths
	Tell   Verb = "tell"   // take a test that would tell most, by number
	ToBin  Verb = "bin"    // put a part that came off into the parts bin
	Help   Verb = "help"
	Leave  Verb = "leave" // suspend the job and go

	Aim     Verb = "aim"      // rank the ways to repair by something else
	Tick    Verb = "tick"     // the next line of the list is done, or the one by number
	All     Verb = "all"      // all open lines of the list are done
	List    Verb = "list"     // the whole list
	Time    Verb = "time"     // start the stop-watch
	Stop    Verb = "stop"     // stop it
	Approve Verb = "approve"  // the owner approves the estimate up to an amount
	Decline Verb = "declined" // the owner does not want the work

	Machine   Verb = "machine"  // what was said of the machine; one thing put right
	Suspected Verb = "suspects" // what may be wrong, and how likely; one of them, by number
)

// verbs are the words that can't be answers, with what help says of them.
var verbs = []struct {
	Verb Verb
	Form string
	Says string
}{
	{Yes, "yes", "confirm that it is so, or that a danger is understood"},
	{Done, "done", "the work or the repair is done"},
	{Pass, "pass [why]", "can't reach it, can't do it, or skip it"},
	{Keep, "keep", "stand by a value that was questioned"},
	{Undo, "undo", "take the last answer back"},
	{Take, "take TEST", "take another test, or one again"},
	{Note, "note WORDS", "write something down"},
	{Why, "why", "or ?: what this step is for, the usual mistake, and its words"},
	{Found, "found", "findings and readings so far"},
	{Left, "left", "what is not tested yet"},
	{Machine, "machine [N ...]", "what was said of the machine; N and words: put it right"},
	{Suspected, "suspects [N]", "what may be wrong and how likely; N: one of them, in counts"},
	{Tell, "tell N", "take test N of those that would tell us most"},
	{Tick, "tick [N]", "the next line of the checklist is done, or line N"},
	{All, "all", "all open lines of the checklist are done"},
	{Time, "time", "start the stop-watch; Enter or \"stop\" stops it"},
	{Stop, "stop", "stop the stop-watch"},
	{List, "list", "the checklist with what is ticked"},
	{Paths, "paths", "ways to repair, with prices"},
	{Aim, "aim [N]", "rank the ways to repair by the next aim, or by aim N"},
	{Choose, "choose N", "take way N of those"},
	{Approve, "approve N WHO", "the owner approves the work up to N; how, behind a comma"},
	{Decline, "declined WHO", "the owner does not want the work"},
	{ToBin, "bin [PART]", "put a part that came off in the parts bin; alone: how"},
	{Close, "close [N WHY]", "end the job, with outcome N; why, if there is more to say"},
	{Leave, "leave", "put the job aside; it is kept"},
	{Help, "help", "these words"},
}

// mayAnswer are the verbs that may also be, or begin, what is chosen at a test:
// "all on", "stop".
var mayAnswer = []Verb{Tick, All, Time, Stop, Approve, Decline}

// Action is one thing the tech asked for.
type Action struct {
	Verb Verb
	Line string // of a verb: the whole line as typed
	Test string // Answer of a named test, Take
	Text string // the answer, reason or note as typed; of Close, why
	Pick int    // Choose, Close, Suspected, Tell: number as typed, 0 when none was
}

// Parse reads a typed line. Several answers may stand on one line, each as a
// test id and its value, with or without ";" between them.
func Parse(sys *tree.System, line string) ([]Action, error) {
	line = strings.TrimSpace(source.CleanLine(line))
	if line == "" {
		return nil, nil
	}
	if line == "?" {
		return []Action{{Verb: Why, Line: line}}, nil
	}
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	for _, v := range verbs {
		if strings.EqualFold(word, string(v.Verb)) {
			a, err := command(sys, v.Verb, rest)
			if err != nil {
				return nil, err
			}
			a.Line = line
			return []Action{a}, nil
		}
	}
	return answers(sys, line)
}

func command(sys *tree.System, verb Verb, rest string) (Action, error) {
	a := Action{Verb: verb, Text: rest}
	if slices.Contains(mayAnswer, verb) {
		return a, nil // the session knows what it stands before
	}
	switch verb {
	case Take:
		test, err := testMeant(sys, rest)
		if err != nil {
			return a, err
		}
		a.Test, a.Text = test.ID, ""
	case Note:
		if rest == "" {
			return a, fmt.Errorf("write the note behind the word: note smells of fuel")
		}
	case Choose, Close, Suspected, Tell:
		if rest == "" {
			return a, nil
		}
		number, why := rest, ""
		if verb == Close { // behind the number may stand why
			number, why, _ = strings.Cut(rest, " ")
		}
		n, err := strconv.Atoi(number)
		if err != nil && verb == Choose {
			return a, nil // a test may have such a choice
		}
		if err != nil || n < 1 {
			return a, fmt.Errorf("%q is no number of the list; write for example: %s 1", number, verb)
		}
		a.Pick, a.Text = n, strings.TrimSpace(why)
	case Paths:
		if rest != "" && !strings.EqualFold(rest, more) {
			return a, fmt.Errorf("\"paths\" stands alone, or with \"more\" behind it; nothing was recorded")
		}
	case Pass, ToBin, Aim, Machine:
	default:
		if rest != "" {
			return a, fmt.Errorf("%q stands alone; nothing was recorded", verb)
		}
	}
	return a, nil
}

// more is typed behind "paths" for what else there is to say of them.
const more = "more"

// answers splits a line into the answers it holds. A line that starts with no
// test's name is one answer to the current test.
func answers(sys *tree.System, line string) ([]Action, error) {
	var out []Action
	fields := strings.Fields(strings.ReplaceAll(line, ";", " ; "))
	for i := 0; i < len(fields); i++ {
		field := fields[i]
		id, words := testAhead(sys, fields[i:])
		switch {
		case field == ";":
			if err := testBehind(sys, out, fields[i+1:]); err != nil {
				return nil, err
			}
		case id != "":
			out = append(out, Action{Test: id})
			i += words - 1
		case len(out) == 0:
			return []Action{{Text: line}}, nil
		default:
			last := &out[len(out)-1]
			last.Text = strings.TrimSpace(last.Text + " " + field)
		}
	}
	if len(out) == 1 && out[0].Text == "" {
		// A lone word may be a choice that a test happens to be named like.
		return []Action{{Text: line}}, nil
	}
	for _, a := range out {
		if a.Text == "" {
			return nil, fmt.Errorf("%s has no value behind it; nothing was recorded", a.Test)
		}
	}
	return out, nil
}
