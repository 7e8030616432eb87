// Package diag_test holds the rules on who may import whom, as a table with
// reasons. A build that breaks a rule is mended by moving code, not by editing
// the table.
package diag_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// may lists what of ours each package may import. A package that is not named
// may import nothing of ours.
var may = map[string][]string{
	"diag/source":   {},
	"diag/measure":  {},
	"diag/electric": {},
	"diag/formula":  {"diag/electric", "diag/source"},
	"diag/tree":     {"diag/shape", "diag/formula", "diag/measure", "diag/source"},
	// Facts know readings, never trees: a log outlives the trees it was made with.
	"diag/job":         {"diag/measure"},
	"diag/job/jobtest": {"diag/job", "diag/measure"},
	"diag/walk":        {"diag/tree", "diag/job", "diag/measure", "diag/formula"},
	// A simulated machine knows the circuit and the tests, never the walk: it
	// answers as a machine would, whoever asks.
	"diag/virtual": {"diag/tree", "diag/circuit", "diag/formula", "diag/measure", "diag/source"},
	// A proof walks simulated machines: it has to know both sides, and nothing of
	// the faces or of money.
	"diag/prove": {"diag/virtual", "diag/benchtime", "diag/walk", "diag/tree", "diag/job", "diag/measure", "diag/source"},
	// Broken trees are edits of text, which have to know how the text is read; what
	// becomes of them is for others.
	"diag/prove/mutant": {"diag/shape", "diag/tree", "diag/formula", "diag/source"},
	// Two libraries are compared by their proofs; of what was changed it knows only
	// what the change can touch.
	"diag/prove/rerun": {"diag/prove", "diag/prove/mutant", "diag/tree"},
	// Suspects know simulated machines and what they show, never the walk: they find
	// and clear nothing. Their proof knows how a machine is asked.
	"diag/benchtime":    {"diag/tree"},
	"diag/suspect":      {"diag/virtual", "diag/benchtime", "diag/tree", "diag/measure"},
	"diag/prove/decide": {"diag/prove", "diag/suspect", "diag/benchtime", "diag/virtual", "diag/walk", "diag/tree", "diag/job", "diag/measure"},
	// What the suspects say of a job: the only one that knows clouds and the walk.
	"diag/counsel": {"diag/suspect", "diag/walk", "diag/job", "diag/tree", "diag/benchtime", "diag/formula"},
	// What many logs amount to, without any tree.
	"diag/record":   {"diag/job", "diag/measure", "diag/source"},
	"diag/shape":    {"diag/source"},
	"diag/casefile": {"diag/shape", "diag/tree", "diag/job", "diag/measure", "diag/formula", "diag/source", "diag/walk"},
	// Amounts know how they are read and nothing of what they pay for; the shop's
	// settings know amounts.
	"diag/money": {"diag/shape", "diag/source"},
	"diag/shop":  {"diag/money", "diag/shape", "diag/source"},
	// Price books as tables: read, compared, searched. They know what a price is, never
	// what is offered for it.
	"diag/pricebook": {"diag/repair", "diag/money", "diag/shape", "diag/tree", "diag/source"},
	"diag/repair":    {"diag/money", "diag/shop", "diag/shape", "diag/tree", "diag/job", "diag/source", "diag/walk"},
	"diag/report":    {"diag/counsel", "diag/repair", "diag/walk", "diag/tree", "diag/job", "diag/measure", "diag/source", "diag/formula"},
	// The solver knows parts and nothing of trees.
	"diag/circuit": {},
	// The circuits that the solver is measured with, and the decks that ngspice
	// reads to check it, know parts and nothing else of ours.
	"diag/circuit/reference": {"diag/circuit"},
	"diag/circuit/spice":     {"diag/circuit"},
	// The faces' words know the job's store only by its interface.
	"ui":        {"diag/counsel", "diag/suspect", "diag/report", "diag/repair", "diag/pricebook", "diag/walk", "diag/tree", "diag/job", "diag/measure", "diag/source"},
	"ui/line":   {"ui", "diag/counsel", "diag/walk", "diag/tree", "diag/job", "diag/source"},
	"ui/screen": {"ui", "diag/counsel", "diag/walk", "diag/tree", "diag/job", "diag/repair", "diag/source"},
	"trees":     {},
	// For tests; it reads files, which nothing in diag may.
	"trees/treetest": {"diag/source"},
	// Only the program sees the embedded trees and the record's technology.
	"cmd/internal/quiet": {},
	// Tools of the developer: how soon a program draws, and the least program.
	"cmd/internal/firstframe":       {},
	"cmd/internal/firstframe/hello": {"cmd/internal/quiet"},
	// The manual pages are made of the verbs' own help.
	"cmd/internal/manual":   {"cmd/internal/app"},
	"cmd/internal/pictures": {"cmd/internal/terminal"},
	// A program on a terminal, whatever program: for tests and pictures.
	"cmd/internal/terminal": {},
	// A tool of the developer: it reads trees from their folder, as an editor would.
	"cmd/internal/mutate": {"diag/prove", "diag/prove/mutant", "diag/prove/rerun", "diag/tree", "diag/source"},
	// The record keeps jobs and the price book.
	"cmd/internal/recorddb": {"diag/job", "diag/record", "diag/repair"},
	"cmd/internal/app": {
		"cmd/internal/recorddb", "trees", "ui", "ui/line", "ui/screen",
		"diag/counsel", "diag/suspect", "diag/casefile", "diag/record", "diag/report", "diag/repair", "diag/pricebook", "diag/shop", "diag/prove", "diag/prove/decide", "diag/virtual", "diag/walk", "diag/tree", "diag/formula", "diag/job", "diag/source", "diag/measure", "diag/shape",
	},
	"cmd/benchlead": {"cmd/internal/app", "cmd/internal/quiet"},
}

// impure are the packages that diag may not import, with why.
var impure = map[string]string{
	"os":                                 "no files or environment",
	"os/exec":                            "no programs",
	"io/fs":                              "no files",
	"net":                                "no network",
	"net/http":                           "no network",
	"math/rand":                          "no randomness that a seed does not fix",
	"math/rand/v2":                       "no randomness that a seed does not fix",
	"crypto/rand":                        "no randomness",
	"sync":                               "no goroutines, so nothing to lock",
	"sync/atomic":                        "no goroutines",
	"runtime":                            "the same everywhere",
	"syscall":                            "no system calls",
	"unsafe":                             "nothing to gain",
	"log":                                "returns errors, writes nothing",
	"log/slog":                           "returns errors, writes nothing",
	"github.com/charmbracelet/bubbletea": "no screen in the engine",
	"github.com/charmbracelet/lipgloss":  "no screen in the engine",
}

// selectors are uses that a package we must allow could make.
var selectors = map[string]string{
	"time.Now": "the clock comes from outside", "time.Since": "the clock comes from outside",
	"time.After": "no waiting", "time.Sleep": "no waiting", "fmt.Print": "writes nothing by itself",
	"fmt.Println": "writes nothing by itself", "fmt.Printf": "writes nothing by itself",
}

// allowed are exceptions, each with its reason.
var allowed = map[string][]string{
	// The store kept in memory is used by several benches at once in tests.
	"diag/job":         {"sync"},
	"diag/job/jobtest": {"sync"},
}

const root = ".."

func TestOnlyKnownPackagesAndTheirImports(t *testing.T) {
	for pkg, files := range packages(t) {
		allow, known := may[pkg]
		require.True(t, known, "package %s is not in the table of who may import whom", pkg)
		for name, file := range files {
			for _, imp := range file.Imports {
				path, _ := strconv.Unquote(imp.Path.Value)
				ours, isOurs := strings.CutPrefix(path, "benchlead/")
				if isOurs {
					require.Contains(t, allow, ours, "%s imports %s", name, path)
				}
			}
		}
	}
}

func TestTheEngineIsPure(t *testing.T) {
	for pkg, files := range packages(t) {
		if !strings.HasPrefix(pkg, "diag/") {
			continue
		}
		for name, file := range files {
			for _, imp := range file.Imports {
				path, _ := strconv.Unquote(imp.Path.Value)
				if why, bad := impure[path]; bad && !slices.Contains(allowed[pkg], path) {
					t.Errorf("%s imports %s: %s", name, path, why)
				}
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.GoStmt:
					t.Errorf("%s starts a goroutine", name)
				case *ast.SelectorExpr:
					if x, ok := n.X.(*ast.Ident); ok {
						if why, bad := selectors[x.Name+"."+n.Sel.Name]; bad {
							t.Errorf("%s uses %s.%s: %s", name, x.Name, n.Sel.Name, why)
						}
					}
				}
				return true
			})
		}
	}
}

// The race detector looks at every package that starts goroutines, if only in a test.
func TestTheRaceDetectorLooksWhereGoroutinesAre(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "Makefile"))
	require.NoError(t, err)
	list := regexp.MustCompile(`(?m)^RACE +:= (.+)$`).FindSubmatch(text)
	require.NotNil(t, list)
	looked := strings.Fields(string(list[1]))
	require.Contains(t, looked, "./cmd/...")
	require.Contains(t, looked, "./ui/...")
	found := map[string]bool{}
	require.NoError(t, fs.WalkDir(os.DirFS(root), "diag", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.SkipObjectResolution)
		if err == nil && startsGoroutines(file) {
			found["./"+filepath.ToSlash(filepath.Dir(name))] = true
		}
		return err
	}))
	require.NotEmpty(t, found)
	for pkg := range found {
		require.True(t, slices.ContainsFunc(looked, func(l string) bool {
			return l == pkg || strings.HasSuffix(l, "/...") && strings.HasPrefix(pkg+"/", strings.TrimSuffix(l, "..."))
		}), "%s starts goroutines, and RACE in the Makefile leaves it out", pkg)
	}
}

// startsGoroutines says whether a file has a go statement, or calls what has one.
func startsGoroutines(file *ast.File) (does bool) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			does = true
		case *ast.SelectorExpr:
			does = does || n.Sel.Name == "Go" || n.Sel.Name == "Parallel"
		}
		return true
	})
	return does
}

func TestNoFunctionOver80LinesAndNoFileOver500(t *testing.T) {
	fset := token.NewFileSet()
	each(t, func(path string) {
		file, err := parser.ParseFile(fset, path, nil, 0)
		require.NoError(t, err)
		lines := fset.File(file.Pos()).LineCount()
		require.LessOrEqual(t, lines, 500, "%s has %d lines", path, lines)
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok {
				n := fset.Position(f.End()).Line - fset.Position(f.Pos()).Line + 1
				require.LessOrEqual(t, n, 80, "%s: %s has %d lines", path, f.Name.Name, n)
			}
		}
	})
}

func TestTopLevelIsFixed(t *testing.T) {
	fixed := []string{"cmd", "diag", "trees", "ui", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "Makefile"}
	entries, err := os.ReadDir(root)
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && e.Name() != "bin" {
			require.Contains(t, fixed, e.Name())
		}
	}
}

// packages are the Go files that are not tests, by package folder.
func packages(t *testing.T) map[string]map[string]*ast.File {
	t.Helper()
	out := map[string]map[string]*ast.File{}
	fset := token.NewFileSet()
	each(t, func(path string) {
		file, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		rel, err := filepath.Rel(root, filepath.Dir(path))
		require.NoError(t, err)
		pkg := filepath.ToSlash(rel)
		if out[pkg] == nil {
			out[pkg] = map[string]*ast.File{}
		}
		out[pkg][path] = file
	})
	require.NotEmpty(t, out)
	return out
}

// each calls do for every Go file of the program, tests left out.
func each(t *testing.T, do func(path string)) {
	t.Helper()
	for _, top := range []string{"cmd", "diag", "trees", "ui"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d fs.DirEntry, err error) error {
			if err == nil && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
				do(path)
			}
			return err
		})
		require.NoError(t, err)
	}
}
