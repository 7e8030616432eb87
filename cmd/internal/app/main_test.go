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

var pumpSettings = filepath.Join("..", "..", "..", "testdata", "trees", "pump-settings.yaml")

// intakeLines answer the intake of the pump.
var intakeLines = []string{"1", "1", "", "", "", "", "", "", "", ""}

// cache is where all tests keep clouds: a machine that several judge is worked out once.
var cache string

// testEnv is the environment of a program under test.
func testEnv(record string) func(string) string {
	return func(name string) string {
		return map[string]string{"BENCHLEAD_RECORD": record, "BENCHLEAD_CACHE": cache, "BENCHLEAD_SETTINGS": pumpSettings}[name]
	}
}

// asProgram makes the test binary the program itself, so that tests can start
// it, kill it and look at what it left.
const asProgram = "BENCHLEAD_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) == "1" {
		os.Exit(Run(context.Background(), os.Args[1:], Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Getenv))
	}
	var err error
	if cache, err = os.MkdirTemp("", "benchlead-test"); err != nil {
		panic(err)
	}
	code := m.Run()
	_ = os.RemoveAll(cache)
	os.Exit(code)
}

// notRaced leaves out, under the race detector, a test that makes clouds of suspects: one
// takes it a minute or two. What runs beside in making them is looked at by the tests of
// the clouds themselves.
func notRaced(t *testing.T) {
	t.Helper()
	if raced {
		t.Skip("a cloud of suspects takes the race detector minutes")
	}
}
