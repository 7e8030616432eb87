package app

import (
	"context"
	"errors"

	"benchlead/ui/screen"
)

// bench opens the full-screen face.
func (p *program) bench(ctx context.Context) error {
	if !isTerminal(p.screen) || !isTerminal(p.streams.In) {
		return usage{errors.New(`the bench needs a terminal; without one use
  benchlead walk          the same in plain lines
  benchlead judge CASE    readings already taken, judged`)}
	}
	b, shut, err := p.open(ctx)
	if err != nil {
		return err
	}
	defer shut()
	where := p.recordPath()
	if p.demo {
		where = "demo, kept nowhere"
	}
	return screen.Run(ctx, screen.Options{Bench: b, In: p.streams.In, Out: p.screen, Record: where, Demo: p.demo})
}
