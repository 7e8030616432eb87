package app

import (
	"context"
	"fmt"

	"benchlead/ui/screen"
)

// bench opens the full-screen face.
func (p *program) bench(ctx context.Context) error {
	if !isTerminal(p.streams.Out) || !isTerminal(p.streams.In) {
		fmt.Fprintln(p.streams.Out, "The bench needs a terminal. Without one use:")
		fmt.Fprintln(p.streams.Out, "  benchlead walk          the same in plain lines")
		fmt.Fprintln(p.streams.Out, "  benchlead judge FILE    readings already taken, judged")
		return nil
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
	return screen.Run(ctx, screen.Options{Bench: b, In: p.streams.In, Out: p.streams.Out, Record: where, Demo: p.demo})
}
