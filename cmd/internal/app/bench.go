package app

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"sync"
	"syscall"

	"benchlead/ui"
	"benchlead/ui/screen"
)

// bench opens the full-screen face.
func (p *program) bench(ctx context.Context) error {
	if !isTerminal(p.screen) || !isTerminal(p.streams.In) {
		return usage{errors.New(`the bench needs a terminal; without one use
  benchlead walk          the same in plain lines
  benchlead judge CASE    readings already taken, judged`)}
	}
	keepSmall()
	o := &opener{p: p, err: p.streams.Err}
	p.streams.Err = &o.heard
	defer o.close()
	load := func() (ui.Bench, error) { return o.open(ctx) }
	where := p.recordPath()
	if p.demo {
		where = "demo, kept nowhere"
	}
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM) // the terminal is put right first
	defer stop()
	ctx, gone := context.WithCancelCause(ctx)
	defer gone(nil)
	err := screen.Run(ctx, screen.Options{Load: load, In: attended(p.streams.In, gone), Out: p.screen, Record: where, Demo: p.demo})
	if errors.Is(context.Cause(ctx), errUnattended) {
		return errUnattended
	}
	return err
}

// keepSmall has the garbage collected at half of what is in use, not at as much again:
// the bench stays open all day beside other programs on a laptop that is not new. Making
// the suspects takes longer by a twelfth or so for it, in the background. Who says
// otherwise in GOGC is heeded.
func keepSmall() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(50)
	}
}

// errUnattended says that nobody can press a key any more.
var errUnattended = errors.New("the terminal is gone; what was acknowledged is in the record")

// attended is a terminal that says when it is gone. The program mostly hears a hang-up
// then, but not when it was started so as to hear none: it would stay for ever.
func attended(in io.Reader, gone context.CancelCauseFunc) io.Reader {
	if f, ok := in.(*os.File); ok {
		return keyboard{f, gone}
	}
	return in
}

// keyboard is a file still, for whoever sets the terminal up.
type keyboard struct {
	*os.File
	gone context.CancelCauseFunc
}

func (k keyboard) Read(b []byte) (int, error) {
	n, err := k.File.Read(b)
	if err != nil {
		k.gone(errUnattended)
	}
	return n, err
}

// opener opens record and trees while the screen stands already. What is wrong
// with them is said once the screen is gone.
type opener struct {
	p     *program
	err   io.Writer
	heard bytes.Buffer

	mu   sync.Mutex // held while it opens
	shut func()
	over bool
}

func (o *opener) open(ctx context.Context) (b ui.Bench, err error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.over {
		return b, context.Canceled
	}
	b, o.shut, err = o.p.open(ctx)
	return b, err
}

// close waits for what is being opened, and closes it.
func (o *opener) close() {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.over = true
	if o.shut != nil {
		o.shut()
	}
	_, _ = o.heard.WriteTo(o.err)
	o.p.streams.Err = o.err
}
