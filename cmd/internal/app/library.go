package app

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"sync"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
)

// codeNotRead is the code of a file that is passed over for its name.
const codeNotRead source.Code = "file-not-read"

// maxFiles bounds a folder of trees from a stranger.
const maxFiles = 2000

// library loads the built-in trees, or those of --trees, and shows every issue
// with its place.
func (p *program) library() (*tree.Library, error) {
	lib, _, err := p.libraryFiles(false)
	return lib, err
}

// libraryFiles is the library with the text that it was read from. Built-in trees
// are checked only where that is strict.
func (p *program) libraryFiles(strict bool) (*tree.Library, []source.File, error) {
	if p.treeDir == "" && !strict {
		in := builtIn()
		return in.lib, in.files, firstOf(in.err, p.complain(in.issues, in.files))
	}
	files, issues, err := readTrees(p.treesFrom())
	if err != nil {
		return nil, nil, err
	}
	if slices.ContainsFunc(issues, func(i source.Issue) bool { return i.Code == codeNotRead }) {
		return nil, files, p.complain(issues, files) // what such a file holds would be missed all over
	}
	lib, outline, more := tree.LoadOutlined(files)
	if issues = append(issues, more...); len(issues) == 0 && p.treeDir != "" {
		p.outlines().write(outline)
	}
	return lib, files, p.complain(issues, files)
}

// treesFrom is where the trees are: built in, or a folder.
func (p *program) treesFrom() (from fs.FS, folder string) {
	if p.treeDir == "" {
		return trees.Files, "trees"
	}
	return inside(p.treeDir), p.treeDir
}

// opened are trees as they were read.
type opened struct {
	lib    *tree.Library
	files  []source.File
	issues source.Issues
	err    error
}

// builtIn opens the built-in trees, once: they were checked before they were built
// in, and a library is never changed.
var builtIn = sync.OnceValue(func() opened {
	files, issues, err := readTrees(trees.Files, "trees")
	if err != nil {
		return opened{err: err}
	}
	lib, more := tree.Open(files)
	return opened{lib, files, append(issues, more...), nil}
})

// readTrees reads every YAML file below a folder, but for demo/, in order.
func readTrees(from fs.FS, folder string) ([]source.File, source.Issues, error) {
	var files []source.File
	var issues source.Issues
	err := fs.WalkDir(from, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil && name == ".":
			return fmt.Errorf("the folder %s can't be read: %w; name a folder of trees", folder, bare(err))
		case err != nil:
			return fmt.Errorf("the trees in %s can't be read: %w", folder, err)
		case entry.IsDir() && name == "demo":
			return fs.SkipDir
		case !entry.IsDir() && wronglyEnded(name):
			issues = append(issues, source.Issue{
				Code: codeNotRead, Place: source.Place{File: path.Join(folder, name), Line: 1, Column: 1},
				Message: "only files that end in .yaml are read, and this one isn't", Hint: "rename it to .yaml, or take it out of the folder",
			})
			return nil
		case entry.IsDir() || !strings.HasSuffix(name, ".yaml"):
			return nil
		case len(files) >= maxFiles:
			return fmt.Errorf("%s holds more than %d tree files; name a folder of trees", folder, maxFiles)
		}
		file, bad, err := readFile(from, name, path.Join(folder, name))
		if file != nil {
			files = append(files, *file)
		}
		issues = append(issues, bad...)
		return err
	})
	return files, issues, err
}

// bare is an error of a file without the name that it was opened by.
func bare(err error) error {
	var why *fs.PathError
	if errors.As(err, &why) {
		return why.Err
	}
	return err
}

// wronglyEnded is the name of a YAML file that would be passed over.
func wronglyEnded(name string) bool {
	end := strings.ToLower(path.Ext(name))
	return (end == ".yml" || end == ".yaml") && !strings.HasSuffix(name, ".yaml")
}

// readFile reads one file of at most source.MaxBytes.
func readFile(from fs.FS, name, shown string) (*source.File, source.Issues, error) {
	data, err := readBytes(from, name, shown, source.MaxBytes)
	if err != nil {
		return nil, nil, err
	}
	file, issues := source.Open(shown, data)
	return file, issues, nil
}

// readBytes reads a plain file, and no more than one byte above a limit.
func readBytes(from fs.FS, name, shown string, limit int) ([]byte, error) {
	info, err := fs.Stat(from, name)
	if err != nil {
		return nil, fmt.Errorf("%s can't be read: %w", shown, err)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file", shown)
	}
	f, err := from.Open(name)
	if err != nil {
		return nil, fmt.Errorf("%s can't be read: %w", shown, err)
	}
	defer f.Close()
	data, err := readCapped(f, limit+1)
	if err != nil {
		return nil, fmt.Errorf("%s can't be read: %w", shown, err)
	}
	return data, nil
}

// systemless says that nothing can be worked on: the folder is another one, or empty.
func (p *program) systemless(lib *tree.Library) error {
	if len(lib.Systems) > 0 {
		return nil
	}
	_, folder := p.treesFrom()
	return fmt.Errorf("there is no system in %s: name the folder that holds systems/, faults/ and repairs/, or write a file that begins with \"system:\" and a name", source.CleanLine(folder))
}

// meterless says that readings can't be judged: by no meter's accuracy.
func meterless(lib *tree.Library) error {
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		metered := slices.ContainsFunc(lib.Systems[id].Tests, func(t *tree.Test) bool { return t.Kind == tree.Metered })
		if metered && len(lib.Meters) == 0 {
			return fmt.Errorf("%s is read with a meter, and these trees have none: write a list meters: with the accuracy of one", id)
		}
	}
	return nil
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// openFile reads a file that the user named.
func openFile(name string) (*source.File, source.Issues, error) {
	return readFile(anyFile{}, name, name)
}

// anyFile opens files by the name that the user typed, which fs.FS would
// refuse when it is absolute or goes up.
type anyFile struct{}

func (anyFile) Open(name string) (fs.File, error) { return os.Open(name) }

// Stat looks without opening: opening a pipe would wait for whoever writes to it.
func (anyFile) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

// mostIssues is how many issues are shown at a time: nobody reads more, and a file
// from a stranger may have a hundred thousand.
const mostIssues = 200

// complain shows every issue with the line it stands on, and returns them as an
// error when there are any.
func (p *program) complain(issues source.Issues, files []source.File) error {
	issues = issues.Sorted()
	for _, issue := range issues[:min(len(issues), mostIssues)] {
		fmt.Fprintln(p.streams.Err, issue.Render(fileNamed(files, issue.Place.File)))
	}
	if more := len(issues) - mostIssues; more > 0 {
		fmt.Fprintf(p.streams.Err, "and %d more, which are shown once these are mended.\n", more)
	}
	if len(issues) > 0 {
		tail := "; nothing was run"
		if p.checking {
			tail = ""
		}
		fmt.Fprintf(p.streams.Err, "%d to mend%s.\n", len(issues), tail)
	}
	return issues.Err()
}

func fileNamed(files []source.File, name string) *source.File {
	for i := range files {
		if files[i].Name == name {
			return &files[i]
		}
	}
	return nil
}
