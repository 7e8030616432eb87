package screen

import (
	"slices"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// binding is a key with what it does. The key line, the help page and what a
// key does are all made from it.
type binding struct {
	keys  []string // the first one is shown
	short string   // for the key line; empty: not in it
	says  string   // for the help page
	waits bool     // acts only once Enter is pressed
	act   action
}

// named is how keys are written on the screen.
var named = map[string]string{
	"enter": "Enter", "esc": "Esc", "up": "Up", "down": "Down", "pgup": "PgUp", "pgdown": "PgDn",
	"ctrl+c": "Ctrl-C", " ": "Space", "ctrl+b": "Ctrl-B", "ctrl+g": "Ctrl-G", "tab": "Tab", "home": "Home", "end": "End",
}

func (b binding) name() string {
	if n, ok := named[b.keys[0]]; ok {
		return n
	}
	return b.keys[0]
}

// find is the binding of a key, nil without one.
func find(list []binding, name string) *binding {
	for i := range list {
		for _, k := range list[i].keys {
			if k == name {
				return &list[i]
			}
		}
	}
	return nil
}

var leaveKey = binding{keys: []string{"ctrl+c"}, says: "leave the program; everything is kept", act: action{deed: quit}}

// scrolling moves a page that is longer than the window.
func scrolling() []binding {
	return []binding{
		{keys: []string{"pgdown"}, says: "further down", act: action{deed: scroll, by: 1, page: true}},
		{keys: []string{"pgup"}, says: "further up", act: action{deed: scroll, by: -1, page: true}},
		{keys: []string{"down"}, says: "a line down", act: action{deed: scroll, by: 1}},
		{keys: []string{"up"}, says: "a line up", act: action{deed: scroll, by: -1}},
	}
}

// jobsKeys are the keys of the list of jobs.
func jobsKeys() []binding {
	return []binding{
		{keys: []string{"enter"}, short: "open", says: "open the job under > (or the number typed)", act: action{deed: openJob}},
		{keys: []string{"n"}, short: "new job", says: "take in a machine", act: action{deed: newJob}},
		{keys: []string{"up"}, says: "the job above", act: action{deed: scroll, by: -1}},
		{keys: []string{"down"}, says: "the job below", act: action{deed: scroll, by: 1}},
		{keys: []string{"pgup"}, says: "a page up", act: action{deed: scroll, by: -1, page: true}},
		{keys: []string{"pgdown"}, says: "a page down", act: action{deed: scroll, by: 1, page: true}},
		{keys: []string{"/"}, short: "search", says: "show only jobs with the words behind it", act: action{deed: prefill, text: "/"}},
		{keys: []string{"p"}, short: "prices", says: "look a price up", act: action{deed: lookUp}},
		{keys: []string{"esc"}, says: "empty the input line; Up brings it back", act: action{deed: shut}},
		{keys: []string{"h", "?"}, short: "help", says: "these keys", act: action{deed: show, view: ui.Help}},
		{keys: []string{"q"}, short: "leave", says: "leave the program", waits: true, act: action{deed: quit}},
		leaveKey,
	}
}

// intakeKeys are the keys of the intake. Letters are answers here, so none acts;
// ? does while nothing is typed.
func intakeKeys() []binding {
	return append([]binding{
		{keys: []string{"enter"}, short: "answer, or the usual", says: "send what is typed, or take what is usual", act: action{deed: answer}},
		{keys: []string{"?"}, short: "help", says: "how this question is answered", act: action{deed: explain}},
		{keys: []string{"esc", "ctrl+b"}, short: "question before", says: "the question before; from the first, the jobs", act: action{deed: back}},
	}, append(scrolling(), binding{keys: leaveKey.keys, says: "leave the program; this intake is not kept", act: leaveKey.act})...)
}

// stepKeys are the keys while a job is open, in the order of the key line. What
// can't be done at a step is not bound there.
func stepKeys(s *step) []binding {
	stage, test := s.prompt.Stage, s.pos.Test
	ended := stage == walk.AtClosed || stage == walk.AtIntake
	var out []binding
	add := func(works bool, letter, short, says string, waits bool, act action) {
		if works {
			out = append(out, binding{keys: []string{letter}, short: short, says: says, waits: waits, act: act})
		}
	}
	sends := func(text string) action { return action{deed: send, text: text} }
	add(s.asking && s.prompt.Meant != "", "y", "yes, as meant", "take what was meant, "+s.prompt.Meant, true, sends(string(ui.Yes)))
	add(s.asking && !s.prompt.CantKeep, "k", "keep it", "stand by the value that was questioned", true, sends(string(ui.Keep)))
	add(stage == walk.AtWork, "d", "done", "the work is done", true, sends(string(ui.Done)))
	if s.ticked() {
		out = append(out, listKeys(s)...)
	}
	add(stage == walk.AtVerdict && len(s.list()) > 0, "a", "another aim", "rank the ways to repair by something else", true, sends(string(ui.Aim)))
	if s.timed {
		out = append(out, watchKey(s))
	}
	if len(s.prompt.Hold) > 0 {
		out = append(out, countKey(s))
	}
	if stage == walk.AtEstimate {
		begins := func(text string) action { return action{deed: prefill, text: text} }
		add(true, "a", "approved", "the owner approves: begin the line with the total, who comes behind it", true, begins("approve "+s.prompt.Total+" "))
		add(true, "d", "declined", "the owner does not want it: begin the line, who comes behind it", true, begins("declined "))
		add(true, "c", "not asked", "the owner is not asked: begin the line, why comes behind it", true, begins("pass "))
	}
	add(canPass(s.pos, s.chosen), "c", "can't reach", "pass this step: can't reach it, can't do it", true, sends("pass can't reach"))
	add(test != nil && isAsked(stage) && test.Kind == tree.Metered && !s.timed, "f", "flickers", "the display never settles", true, sends("flicker"))
	add(!ended && !s.fresh, "z", "undo", "take the last answer back", true, sends(string(ui.Undo)))
	views := viewKeys(s.suspects.shown)
	if isAsked(stage) && len(s.pos.Verdict.Found) > 0 || stage == walk.AtEstimate {
		// Something is found: it may be repaired now, or in a cheaper way, and that is
		// not cut off the line.
		paths := slices.IndexFunc(views, func(b binding) bool { return b.act.view == ui.Paths })
		out = append(out, views[paths])
		views = slices.Delete(views, paths, paths+1)
	}
	out = append(out, views[:2]...)
	reads := test != nil && isAsked(stage) && test.Kind == tree.Metered
	add(reads, "tab", "big", "show readings in big figures, to be read from two metres, or not", false, action{deed: enlarge})
	add(canTake(stage), "t", "other test", "take another test, or one again", false, action{deed: pickTest})
	if !reads {
		out = append(out, views[2])
	}
	add(true, "q", "aside", "put the job aside and go to the jobs; it is kept", true, action{deed: aside})
	if reads {
		out = append(out, views[2])
	}
	out = append(out, views[3:]...)
	add(!ended && !s.wantsYes(), "n", "note", "begin a note", true, action{deed: prefill, text: "note "})
	out = append(out, binding{keys: []string{"esc"}, says: "empty the input line; Up brings it back", act: action{deed: shut}})
	if len(s.prompt.Hold) > 0 {
		out = append(out, binding{keys: []string{"ctrl+g"}, says: "the bell at the end of a countdown, on or off", act: action{deed: ringing}})
	}
	out = append(out, scrolling()...)
	return append(out, leaveKey)
}

// canPass says whether a step can be passed over. A make-safe card stands before
// the step, so that what can't be made safe can be left undone. A danger and a
// repair can't, nor a safety function once a path is chosen.
func canPass(pos walk.Position, chosen bool) bool {
	switch pos.Stage {
	case walk.AtWork:
		return true
	case walk.AtTest, walk.AtCheck, walk.AtSafe:
	default:
		return false
	}
	if pos.Test == nil {
		return pos.Work != nil
	}
	return !chosen || pos.System == nil || !slices.Contains(pos.System.HandBack, pos.Test.ID)
}

// canTake says whether another test can be taken in place of a step: not before
// a danger is heeded, nor once the job is closed.
func canTake(stage walk.Stage) bool {
	switch stage {
	case walk.AtSafe, walk.AtTest, walk.AtWork, walk.AtVerdict, walk.AtEstimate, walk.AtRepair, walk.AtCheck, walk.AtService, walk.AtHandBack, walk.AtClose:
		return true
	}
	return false
}

// isAsked says whether a test waits for an answer at a stage.
func isAsked(stage walk.Stage) bool { return ui.Asked(stage) }

// viewKeys open the views of a job. That of the suspects is among them where there
// are some.
func viewKeys(suspects bool) []binding {
	view := func(letter string, verb ui.Verb, short, says string) binding {
		return binding{keys: []string{letter}, short: short, says: says, act: action{deed: show, view: verb}}
	}
	out := []binding{
		view("?", ui.Why, "why", "what this page is for, the usual mistake, limits and words"),
		view("h", ui.Help, "help", "keys and words"),
		view("l", ui.Left, "left", "what is not tested yet"),
		view("e", ui.Found, "evidence", "findings and readings so far"),
		view("p", ui.Paths, "paths", "ways to repair, with prices"),
		view("m", ui.Machine, "machine", "what was said of the machine, to put it right"),
	}
	if suspects {
		out = slices.Insert(out, 3, view("w", ui.Suspected, "suspects", "suspects, and what would tell us most"))
	}
	return out
}

// overKeys are the keys of a view that lies over the page of a job, or of none.
func overKeys(s *step) []binding {
	out := []binding{{keys: []string{"esc", "enter", "backspace"}, short: "back", says: "back to the step, or the question", act: action{deed: shut}}}
	out = append(out, scrolling()...)
	if s != nil {
		out = append(out, viewKeys(s.suspects.shown)...)
	}
	return append(out, leaveKey)
}

// pickKeys are the keys of the list of tests. Letters search it.
func pickKeys() []binding {
	return []binding{
		{keys: []string{"enter"}, short: "take it", says: "take the test under >", act: action{deed: send}},
		{keys: []string{"up"}, short: "above", says: "the test above", act: action{deed: scroll, by: -1}},
		{keys: []string{"down"}, short: "below", says: "the test below", act: action{deed: scroll, by: 1}},
		{keys: []string{"pgup"}, says: "a page up", act: action{deed: scroll, by: -1, page: true}},
		{keys: []string{"pgdown"}, says: "a page down", act: action{deed: scroll, by: 1, page: true}},
		{keys: []string{"esc"}, short: "back", says: "back to the step", act: action{deed: shut}},
		leaveKey,
	}
}

// keyLine shows as many keys as fit, the first ones first. Help is always among
// them. The last column stays free: where a page has become lower the toolkit clears
// what is below from the end of this line on, and of a full one that takes the last letter.
func keyLine(list []binding, sty styles, width int) string {
	width--
	var names []binding
	need, helps := 0, 0
	for _, b := range list {
		if b.short != "" && b.act.view == ui.Help {
			helps = len(b.name()+b.short) + 3
		}
	}
	for _, b := range list {
		size := len(b.name()+b.short) + 3
		isHelp := b.act.view == ui.Help
		switch {
		case b.short == "":
			continue
		case isHelp:
			helps = 0
		case need+size+helps-2 > width:
			continue
		}
		need += size
		names = append(names, b)
	}
	var out []string
	for _, b := range names {
		out = append(out, sty.key.Render(b.name())+" "+b.short)
	}
	return clip(strings.Join(out, "  "), width)
}

// helpKeys is the help page's part on keys.
func helpKeys(list []binding) []string {
	var out []string
	for _, b := range list {
		name := b.name()
		if b.waits {
			name += " Enter"
		}
		out = append(out, pad(name, 9)+b.says)
	}
	return out
}
