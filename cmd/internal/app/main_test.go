package app

import (
	"context"
	"os"
	"path/filepath"
	"testing"
)

// pumpTrees is the small invented library that the program's own tests use.
var pumpTrees = filepath.Join("..", "..", "..", "testdata", "trees", "pump")

var pumpPrices = filepath.Join("..", "..", "..", "testdata", "trees", "pump-prices.yaml")

// intakeLines answer the intake of the pump.
var intakeLines = []string{"1", "1", "", "", "", "", "", "", "", ""}

// asProgram makes the test binary the program itself, so that tests can start
// it, kill it and look at what it left.
const asProgram = "BENCHLEAD_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) == "1" {
		os.Exit(Run(context.Background(), os.Args[1:], Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Getenv))
	}
	os.Exit(m.Run())
}
