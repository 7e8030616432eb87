// Command benchlead is for the person at a small-engine repair bench with a
// meter in hand: it judges readings, walks fault trees and prices repairs.
package main

import (
	"context"
	"os"
	"os/signal"

	_ "benchlead/cmd/internal/quiet" // before anything that links bubbletea

	"benchlead/cmd/internal/app"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second one ends whatever does not listen
	code := app.Run(ctx, os.Args[1:], app.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Getenv)
	stop()
	os.Exit(code)
}
