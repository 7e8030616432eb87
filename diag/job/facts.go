package job

// Facts are what the events of a job amount to. They hold no position and no
// conclusion: package walk works those out. Fold makes them; they are read-only.
type Facts struct {
	// Intake is what is known of the machine, with all corrections; nil before there is
	// any event.
	Intake *Intake
	// Safe are the make-safe conditions confirmed since the job was last opened, and
	// since the last repair: item to setting.
	Safe map[string]string
	// LastSafe is how each make-safe item was last confirmed in the job's whole life.
	LastSafe map[string]Confirmed
	// Unmade are the items that were asked for, passed over, and not confirmed since.
	Unmade []string
	// Answers are all answers to each test, by test id, in order, those of
	// earlier epochs too. Current, Latest and Before pick from them.
	Answers map[string][]Answer
	Notes   []Note
	Chosen  *Chosen // the latest path
	// ChosenAt is the number of its event; 0 without one. Earlier are the paths before
	// it of which some repair was done, in order.
	ChosenAt int64
	Earlier  []Chosen
	// Agreed are the terms confirmed since that path was chosen, in order.
	Agreed []Agreed
	// Ticked are the repairs done since that path was chosen, in order.
	// Repaired are all repairs done in the job's whole life.
	Ticked   []string
	Repaired []string
	// RepairedAt is the number of the event that last says of a repair that it is done.
	RepairedAt map[string]int64
	// Lined are the lines of its checklists that are done, in order.
	Lined []Lined
	// Asked are the owner's answers to estimates, Served the services done or left
	// out, Binned and Drawn the pieces that went into the parts bin and came out of
	// it, each in order and in the job's whole life.
	Asked  []Answered
	Served []Served
	Binned []Piece
	Drawn  []Drawn
	// Worked are the pieces of work done, in order; MendedAt and MendedLast are the
	// numbers of the events of the first and the last repair, 0 before them.
	Worked               []Worked
	MendedAt, MendedLast int64
	// ServedLast is the number of the event of the last service that was done; 0 without.
	ServedLast int64
	// EverFound are the faults that were among the findings at some time.
	EverFound []string
	Closed    *Closed
	Digest    string   // of the trees last used
	History   []Change // the times that the trees changed while the job was open
	Last      int64    // number of the last event, for Store.Append; 0 without any

	epochs   map[string]int // by test; absent is 0
	works    map[string]tally
	declined map[string]int64 // by work
	heeded   map[hazard]int64
}

// Answer is one answer to a test. Exactly one of Read, Seen and Cant is set.
// Epoch counts how often, before it, the test was made unknown again.
type Answer struct {
	Seq   int64
	At    int64 // microseconds since 1970 UTC
	Epoch int
	Read  *Read
	Seen  *Seen
	Cant  *Cant
}

// Confirmed is the setting of a make-safe item with its place in the log.
type Confirmed struct {
	Seq     int64
	Setting string
}

// Worked is a piece of work with its place in the log.
type Worked struct {
	Seq  int64
	Work string
}

// Answered is the owner's answer to an estimate with its place in the log.
type Answered struct {
	Seq int64
	At  int64 // microseconds since 1970 UTC
	Asked
}

// Piece is a piece off this machine with its place in the log.
type Piece struct {
	Seq int64
	Binned
}

// Note is free text with its place in the log.
type Note struct {
	Seq  int64
	At   int64 // microseconds since 1970 UTC
	Text string
}

// Change is a change of the trees with its place in the log.
type Change struct {
	Seq int64
	At  int64 // microseconds since 1970 UTC
	Trees
}

type tally struct {
	count int
	last  int64
}

type hazard struct{ caution, test string }

// Current are the answers that count for a test now: those of its current
// epoch, and of them only the last run of readings, so that repeats can be
// averaged. A choice or a passing-over stands alone; what came before it no
// longer counts. Empty when the test is unknown.
func (f Facts) Current(test string) []Answer {
	return lastRun(f.ofEpoch(test, f.epochs[test]))
}

// Latest is the last answer that counts for a test now.
func (f Facts) Latest(test string) (Answer, bool) {
	now := f.Current(test)
	if len(now) == 0 {
		return Answer{}, false
	}
	return now[len(now)-1], true
}

// Seen is the choice that counts for a test now; "" when there is none.
func (f Facts) Seen(test string) string {
	if a, ok := f.Latest(test); ok && a.Seen != nil {
		return a.Seen.Choice
	}
	return ""
}

// Times says how often a test was answered in its current epoch.
func (f Facts) Times(test string) int { return len(f.ofEpoch(test, f.epochs[test])) }

// Before are the answers that counted for a test in the latest earlier epoch
// in which it was read or seen: how it was before the work or repair. Empty
// when there is no such epoch.
func (f Facts) Before(test string) []Answer {
	for epoch := f.epochs[test] - 1; epoch >= 0; epoch-- {
		var real []Answer
		for _, a := range f.ofEpoch(test, epoch) {
			if a.Cant == nil {
				real = append(real, a)
			}
		}
		if len(real) > 0 {
			return lastRun(real)
		}
	}
	return nil
}

// Works says how often a piece of work was done, and the number of the event
// that last says so (0 when never).
func (f Facts) Works(work string) (count int, last int64) {
	t := f.works[work]
	return t.count, t.last
}

// Declined is the number of the event that last passed over a piece of work; 0
// when none did.
func (f Facts) Declined(work string) int64 { return f.declined[work] }

// HeededAt is the number of the event that last acknowledged a caution raised
// by a test; 0 when none did. A danger is heeded only when that is later than
// the answer that raised it.
func (f Facts) HeededAt(caution, test string) int64 { return f.heeded[hazard{caution, test}] }

// ofEpoch is a part of all answers to a test, as their epochs only rise; not to
// be changed.
func (f Facts) ofEpoch(test string, epoch int) []Answer {
	all := f.Answers[test]
	from := 0
	for from < len(all) && all[from].Epoch < epoch {
		from++
	}
	to := from
	for to < len(all) && all[to].Epoch == epoch {
		to++
	}
	if from == to {
		return nil
	}
	return all[from:to:to]
}

// lastRun cuts answers down to the readings at their end, or to the last one
// when that is no reading.
func lastRun(answers []Answer) []Answer {
	if len(answers) == 0 {
		return nil
	}
	from := len(answers) - 1
	for answers[from].Read != nil && from > 0 && answers[from-1].Read != nil {
		from--
	}
	return answers[from:]
}
