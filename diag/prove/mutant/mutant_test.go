package mutant

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

const root = "../../.."

func made(t *testing.T, files []source.File) []Mutant {
	t.Helper()
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	all, err := Make(files, lib)
	require.NoError(t, err)
	return all
}

// names are those of the mutants of one kind in one file, without its name.
func names(all []Mutant, kind Kind, file string) []string {
	var out []string
	for _, m := range all {
		if m.Kind == kind && m.Place.File == file {
			out = append(out, strings.TrimPrefix(m.Name, file+": "))
		}
	}
	return out
}

const pump = "testdata/trees/pump"

// Counted by hand in the file: two routes of a step make a mutant when they lead
// to different steps.
func TestEveryStepOfATreeMakesItsMutants(t *testing.T) {
	all := made(t, treetest.Read(t, root, pump))
	require.Equal(t, []string{
		"swap rest (dead, low)", "swap rest (dead, full)", "swap rest (dead, unsure)", "swap rest (low, full)", "swap rest (low, unsure)",
		"swap charge (then, else)",
		"swap held (sags, holds)", "swap held (sags, unsure)",
		"swap motor (none, there)", "swap motor (none, unsure)",
		"swap turns (turns, stands)", "swap turns (turns, smokes)", "swap turns (stands, smokes)", "swap turns (stands, unsure)", "swap turns (smokes, unsure)",
	}, names(all, Swap, pump+"/trees.yaml"))
	require.Equal(t, []string{
		"bypass rest", "bypass charge", "bypass charger", "bypass held", "bypass weak",
		"bypass motor", "bypass open", "bypass turns", "bypass dead", "bypass smoke",
	}, names(all, Bypass, pump+"/trees.yaml"))
	require.Equal(t, []string{
		"cut rest (dead) x0.7", "cut rest (dead) x1.4", "cut rest (low) x0.7", "cut rest (low) x1.4",
		"cut held (sags) x0.7", "cut held (sags) x1.4",
		"cut charger (none) x0.7", "cut charger (none) x1.4", "cut charger (some) x0.7", "cut charger (some) x1.4",
		"cut motor (none) x0.7", "cut motor (none) x1.4",
		"cut lost (little) x0.7", "cut lost (little) x1.4",
	}, names(all, Cut, pump+"/system.yaml"))
}

// line is the text of a mutant's file where the mutant says it is.
func line(t *testing.T, files []source.File, all []Mutant, name string) string {
	t.Helper()
	for _, m := range all {
		if strings.HasSuffix(m.Name, ": "+name) {
			for _, f := range m.Apply(files) {
				if f.Name == m.Place.File {
					return strings.TrimSpace(f.Line(m.Place.Line))
				}
			}
		}
	}
	t.Fatalf("there is no mutant %q", name)
	return ""
}

func TestAMutantIsWhatAnAuthorCouldWrite(t *testing.T) {
	files := treetest.Read(t, root, pump)
	all := made(t, files)
	for name, want := range map[string]string{
		"cut rest (dead) x0.7":     `- {band: dead, below: "0.7 * (0.2 * label.volts)", basis: practice, danger: gas}`,
		"cut rest (low) x1.4":      `- {band: low, below: "1.4 * (12.4)", basis: practice}`,
		"swap held (sags, holds)":  `held:    {test: held, then: {sags: motor, holds: weak, unsure: motor}}`,
		"swap charge (then, else)": `charge:  {do: recharge, stales: [rest], at most: 1, then: charger, else: rest}`,
		"bypass open":              "",
	} {
		require.Equal(t, want, line(t, files, all, name), name)
	}
}

func TestABypassLeadsOn(t *testing.T) {
	files := treetest.Read(t, root, pump)
	for _, m := range made(t, files) {
		want := map[string]string{
			// healthy is 12.4 to 13 V, which is "full" alone
			"bypass rest": "the step rest is gone; what led to it leads to held",
			// no healthy limits: the first answer
			"bypass held":    "the step held is gone; what led to it leads to weak",
			"bypass charger": "the step charger is gone; what led to it leads to held",
			"bypass charge":  "the step charge is gone; what led to it leads to rest",
			"bypass weak":    "the step weak is gone; what led to it leads to motor",
			"bypass smoke":   "the step smoke is gone; what led to it leads to end",
		}[strings.TrimPrefix(m.Name, pump+"/trees.yaml: ")]
		if want != "" {
			require.Equal(t, want, m.Says)
		}
	}
}

// flat is a YAML text as a value for each path.
func flat(t *testing.T, text string) map[string]string {
	t.Helper()
	var node yaml.Node
	require.NoError(t, yaml.Load([]byte(text), &node))
	out := map[string]string{}
	var add func(path string, n *yaml.Node)
	add = func(path string, n *yaml.Node) {
		switch n.Kind {
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				add(path+"/"+n.Content[i].Value, n.Content[i+1])
			}
		case yaml.SequenceNode:
			for i, item := range n.Content {
				add(fmt.Sprintf("%s/%d", path, i), item)
			}
		default:
			out[path] = n.Value
		}
	}
	add("", node.Content[0])
	return out
}

// difference is what one text has at a path and what the other has there.
type difference struct{ was, is string }

func differences(t *testing.T, was, is string) map[string]difference {
	t.Helper()
	before, after := flat(t, was), flat(t, is)
	out := map[string]difference{}
	for path, v := range before {
		if after[path] != v {
			out[path] = difference{v, after[path]}
		}
	}
	for path, v := range after {
		if _, had := before[path]; !had {
			out[path] = difference{"", v}
		}
	}
	return out
}

func TestEveryMutantDiffersInItsPlaceAlone(t *testing.T) {
	const some = 17 // of the shipped trees, each 17th is looked at: all take a minute
	for folder, each := range map[string]int{pump: 1, "trees": some} {
		files := treetest.Read(t, root, folder)
		text := map[string]string{}
		for _, f := range files {
			text[f.Name] = f.Text
		}
		seen := map[string]bool{}
		for i, m := range made(t, files) {
			require.False(t, seen[m.Name], "%s is there twice", m.Name)
			seen[m.Name] = true
			if i%each != 0 {
				continue
			}
			for _, f := range m.Apply(files) {
				if f.Name != m.Place.File {
					require.Equal(t, text[f.Name], f.Text)
					continue
				}
				require.Equal(t, strings.Count(text[f.Name], "\n"), strings.Count(f.Text, "\n"), "lines keep their numbers")
				asNamed(t, m, differences(t, text[f.Name], f.Text))
			}
		}
	}
}

// asNamed holds the differences that a mutant makes against its name.
func asNamed(t *testing.T, m Mutant, d map[string]difference) {
	t.Helper()
	switch m.Kind {
	case Cut:
		require.Len(t, d, 1, m.Name)
		for path, v := range d {
			require.True(t, strings.HasSuffix(path, "/below"), m.Name)
			factor := m.Name[strings.LastIndex(m.Name, "x")+1:]
			require.Equal(t, factor+" * ("+strings.Join(strings.Fields(v.was), " ")+")", v.is, m.Name)
		}
	case Swap:
		require.Len(t, d, 2, m.Name)
		var sides []difference
		for path, v := range d {
			require.True(t, strings.HasPrefix(path, "/steps/"+m.Touch.Ways[0].Step+"/"), "%s: %s", m.Name, path)
			sides = append(sides, v)
		}
		require.Equal(t, sides[0], difference{sides[1].is, sides[1].was}, m.Name)
	case Bypass:
		step := m.Name[strings.LastIndex(m.Name, "bypass ")+len("bypass "):]
		for path, v := range d {
			if strings.HasPrefix(path, "/steps/"+step+"/") {
				require.Empty(t, v.is, "%s: %s is still there", m.Name, path)
				continue
			}
			require.Equal(t, step, v.was, "%s: %s", m.Name, path)
			require.NotEqual(t, step, v.is, "%s: %s", m.Name, path)
		}
	}
}

func TestACutIsFoundHoweverItIsWritten(t *testing.T) {
	const before, after = "tests:\n  - test: x\n    bands:\n      - band: low\n        below: ", "\n        basis: practice # why\n      - band: high\n"
	for written, want := range map[string]string{
		"12.4":                             "0.7 * (12.4)",
		"0.1 * label.volts":                "0.7 * (0.1 * label.volts)",
		`"min(1, 2)"`:                      "0.7 * (min(1, 2))",
		`'max(1, 2)'`:                      "0.7 * (max(1, 2))",
		`"a == \"b\" ? 1 : 2"`:             `0.7 * (a == "b" ? 1 : 2)`,
		`'a == "it''s" ? 1 : 2'`:           `0.7 * (a == "it's" ? 1 : 2)`,
		"|\n          1 +\n          2":    "0.7 * (1 + 2)",
		">-\n          1 +\n\n          2": "0.7 * (1 + 2)",
	} {
		file := source.File{Name: "a.yaml", Text: before + written + after}
		all, err := Make([]source.File{file}, &tree.Library{Systems: map[string]*tree.System{"s": {}}})
		require.NoError(t, err, written)
		require.Len(t, all, 2, written)
		changed := all[0].Apply([]source.File{file})[0].Text
		d := differences(t, file.Text, changed)
		require.Len(t, d, 1, written)
		require.Equal(t, want, d["/tests/0/bands/0/below"].is, written)
		require.True(t, strings.HasSuffix(changed, after), changed)
	}
}

func TestACutOfNoughtIsLeftOut(t *testing.T) {
	files := treetest.Read(t, root, pump)
	for i := range files {
		files[i].Text = strings.Replace(files[i].Text, "below: 0.2 * label.volts", `below: "0"`, 1)
	}
	require.NotContains(t, names(made(t, files), Cut, pump+"/system.yaml"), "cut rest (dead) x0.7")
}

func TestAStepThatSharesItsLineIsSaid(t *testing.T) {
	files := treetest.Read(t, root, pump)
	lib, issues := tree.Load(files)
	require.Empty(t, issues)
	for i := range files {
		if strings.HasSuffix(files[i].Name, "/trees.yaml") {
			files[i].Text = "tree: no-run\nsteps: {rest: {test: rest, then: {dead: end}}}\n"
		}
	}
	_, err := Make(files, lib)
	require.ErrorContains(t, err, "testdata/trees/pump/trees.yaml:2:9: write each step on a line of its own")
}
