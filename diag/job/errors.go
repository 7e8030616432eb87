package job

import "errors"

// What a Store can answer with, for errors.Is. Each says what to do, because it
// reaches the person at the bench.
var (
	// ErrConflict: events were added to the job since the caller last loaded it.
	ErrConflict = errors.New("another bench added to this job: load it again, look at what came in, then answer once more")
	// ErrNoJob: no job has this number.
	ErrNoJob = errors.New("there is no such job: list the jobs to see their numbers")
	// ErrClosed: the job was closed; only notes are still taken.
	ErrClosed = errors.New("the job is closed and takes no more facts: open a new job for new work")
	// ErrTaken: the piece of the parts bin is no longer there to be had.
	ErrTaken = errors.New("it is no longer there to be had: look at the bin again")
	// ErrNoPiece: no piece of the parts bin has this name.
	ErrNoPiece = errors.New("there is no such piece in the parts bin: look at the bin again")
	// ErrFull: nothing of the call was saved for want of space.
	ErrFull = errors.New("the disk is full and nothing was saved: free some space, then try again")
	// ErrLocked: another program holds the record.
	ErrLocked = errors.New("another program is writing to the record: wait a moment and try again, or close that program")
	// ErrNewer: the record, or an event in it, is of a newer program.
	ErrNewer = errors.New("a newer benchlead wrote this: update the program on this bench, the record is left as it is")
	// ErrReadOnly: the record or its folder can't be written.
	ErrReadOnly = errors.New("the record can't be written: check who may write to the file and its folder, or keep the record elsewhere")
	// ErrDisk: the disk under the record doesn't do what it is asked.
	ErrDisk = errors.New("the disk that the record lies on failed and this was not saved: see that it is plugged in, then try again; if that doesn't help leave the program and start it again")
	// ErrGone: the file is no longer under its name, or another one is.
	ErrGone = errors.New("the record is not where it was and this does not count: put the stick, drive or folder back, then answer again; if that doesn't help leave the program and start it again")
	// ErrDamaged: the file is no sound record.
	ErrDamaged = errors.New("this is not a sound record and was left as it is: leave the program and go back to the newest backup with \"benchlead backup --restore\"")
)
