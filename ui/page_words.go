package ui

import "benchlead/diag/walk"

// aboutPage is what is said of a page that is no test: what it is for, what to do on
// it, and the mistake people make there.
type aboutPage struct {
	For, Do, Mistake string
	Pass             string // goes on Do where the step can be passed over
}

// aboutStages are the pages by their stage. A test has texts of its own in the trees.
// All of it is common practice, without a source.
var aboutStages = map[walk.Stage]aboutPage{
	walk.AtDanger: {
		For:     "What was read or seen can hurt somebody. Nothing else is asked before it is understood.",
		Do:      "Read it to the end, do what it says at the machine, then type yes.",
		Mistake: "Typing yes to get on. The danger is at the machine, and not on this page.",
	},
	walk.AtSafe: {
		For:     "What comes next needs the machine like this. It is asked when something changes and each time a job is opened: nobody knows what was done to it meanwhile.",
		Do:      "Go through the lines at the machine, in their order, with hand and eye. Type yes when all of it is so.",
		Pass:    " What can't be made so: pass the step.",
		Mistake: "Confirming from memory. The spark lead that was put back for a running test is the one that gets forgotten.",
	},
	walk.AtWork: {
		For:     "This changes the machine, and what it changes is read again after it.",
		Do:      "Do it as it is told, then type done. Pass leaves it undone, and the walk goes round it.",
		Mistake: "Doing a second thing along with it. Then nobody knows which of the two it was.",
	},
	walk.AtVerdict: {
		For:     "All that the readings say: what is found and by what, what is cleared, what can't be tested before something else is repaired, and what nobody tested.",
		Do:      "Look at what is not tested before you choose. Then the number of a way to go on, or close. Any test can still be taken or repeated.",
		Mistake: "Taking \"not tested\" for \"good\", or ordering the dearest suspect first. Electrical parts mostly can't be given back: a wrong call costs the whole part.",
	},
	walk.AtEstimate: {
		For:     "No work is begun before the owner, or whoever may decide, has answered. The amount is a ceiling for the whole job: more than that is asked about again.",
		Do:      "Read the two lines to the owner as they stand. Type what was said, up to how much, who said it and how. Declined work is kept on record too.",
		Mistake: "Beginning on a nod, or telling a price without what was not tested. A second fault may show once the first is repaired: say so now.",
	},
	walk.AtTerms: {
		For:     "This repair may be done only where this is so. It changes how the machine starts or stops, and somebody's hand or foot rests on it.",
		Do:      "Look at the machine for each line. Type yes, or the number of the way that holds. Where none does, undo takes the choice back.",
		Mistake: "Confirming a rule because the conversion is done often. It has to hold on this machine.",
	},
	walk.AtRepair: {
		For:     "The repair, line by line, so that nothing is left off or kept in a pocket. After it the readings that failed are taken again.",
		Do:      "Cautions first. Then tick each line when it is done, done at the end. Torque stands here only where a source gives it: otherwise by the machine's own book.",
		Mistake: "Ticking all of it at the end from memory. What was forgotten then is a nut, a seal, or the spark lead.",
	},
	walk.AtService: {
		For:     "Usual work while the machine is open anyway. None of it is needed for the repair, and none of it proves it.",
		Do:      "The number of what is done, before and after where it needs making safe. Pass and a number leaves one out, pass alone the rest.",
		Mistake: "Doing what the owner was not asked about, or a blade with the spark lead on.",
	},
	walk.AtClose: {
		For:     "How the job ended, for good. Only what is true is offered: nothing is repaired and proved with a check reading or a safety function missing.",
		Do:      "The number of the outcome, why behind it if there is more to say, and yes. What has to be put back is asked for first. Something missing: take that test now.",
		Mistake: "Closing to clear the bench. A machine with a bypass or a failed safety function is unsafe, and its owner has that in writing.",
	},
	SureStage: {
		For:     "A closed job stays closed, with its verdict, price and report as they are now.",
		Do:      "Yes closes it. Anything else goes on with the job.",
		Mistake: "Closing before the machine has run for the owner, or before the tag hangs on it.",
	},
	walk.AtClosed: {
		For:     "The job is over. What came of it, and how to hand it over.",
		Do:      "Print the owner's report and the tag. If it comes back, that is a new job.",
		Mistake: "Handing it over without a word of what was not tested.",
	},
	walk.AtIntake: {
		For: "The fault trees in use don't know the machine that this job was begun with.",
		Do:  "Put it aside, and open it with the trees that it was begun with. Its readings are kept.",
	},
}

// aboutViews are the pages that lie over a step.
var aboutViews = map[Verb]aboutPage{
	Paths: {
		For:     "Every sensible way to clear all that is found, and the ways to end without a repair, each with what it comes to.",
		Do:      "Compare total, minutes, days for parts, and what a comeback would cost. \"aim\" ranks them by something else. One is chosen by its number.",
		Mistake: "Choosing the cheapest part for a machine that goes out with a warranty, or repairing for more than the machine is worth without saying so.",
	},
	Suspected: {
		For:     "What may be wrong, by how many of the simulated machines with that fault would have given these readings. It ranks and warns, and finds nothing.",
		Do:      "Take the test that tells most. One number says why that fault is so likely.",
		Mistake: "Buying the first of the list. Likely is not found.",
	},
	Machine: {
		For:     "What was said when it was taken in. The limits rest on its labels, and a label that nobody read is taken for the usual one.",
		Do:      "Read the sticker now if it can be reached, and put right what was not so. Every reading is judged by it then, those already taken too.",
		Mistake: "Going on with a usual value while the sticker is under the seat.",
	},
	Left: {
		For:     "What nobody has shown to be good or bad yet, and the test that would.",
		Do:      "Take what is quickly reached before the machine goes together again.",
		Mistake: "Taking \"not tested\" for \"good\".",
	},
	Found: {
		For:     "Each fault that is shown, each that is ruled out, and the readings that say so.",
		Do:      "A reading that fits nothing is taken once more before anything is bought.",
		Mistake: "Believing a reading because it was written down.",
	},
}

// lines are an explanation, a line for each part of it.
func (a aboutPage) lines() []string {
	var out []string
	for _, l := range []struct{ head, text string }{
		{"What it is for: ", a.For}, {"What to do: ", a.Do}, {"The usual mistake: ", a.Mistake},
	} {
		if l.text != "" {
			out = append(out, l.head+l.text)
		}
	}
	return out
}

// AboutView says what a view is for that lies over the step; nothing for one that
// needs no words.
func AboutView(view Verb) []string { return aboutViews[view].lines() }
