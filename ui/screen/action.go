package screen

import "benchlead/ui"

// deed is a kind of thing that a page asks the root to do. Pages do nothing
// themselves.
type deed int

// The deeds. The set is closed: do.go does each of them.
const (
	nothing  deed = iota
	send          // text, to the session
	prefill       // text, into the input line
	show          // view
	pickTest      // open the list of tests
	lookUp        // open the price book
	unfold        // the price under the cursor, in full or not
	openJob       // job
	noJob         // text, which is no job's number
	newJob        // begin an intake
	answer        // text, to the intake's question
	explain       // how the intake's question is answered
	back          // to the intake's question before
	aside         // back to the jobs
	shut          // what lies over the page, or the words in the input line
	scroll        // by lines
	holdBack      // a yes to what was not read to its end
	timing        // start or stop the stop-watch
	counting      // start a countdown, or show it again
	ringing       // the bell at the end of a countdown, on or off
	enlarge       // readings in big figures, or not
	quit
)

// action is what came of a key.
type action struct {
	deed deed
	text string
	view ui.Verb
	job  int64
	by   int // lines, for scroll; pages when page is set
	page bool
}
