package shape

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"benchlead/diag/source"
)

// shed is a shape with one of everything.
type shed struct {
	Place source.Place
	Shed  Word       `yaml:"shed" is:"required"`
	About Prose      `yaml:"about"`
	Size  Number     `yaml:"size"`
	Open  YesNo      `yaml:"open"`
	Rent  Expression `yaml:"rent"`
	Plan  []Figure   `yaml:"plan"`
	Tools []tool     `yaml:"tools"`
	Bins  []bin      `yaml:"bins" is:"keyed"`
	Keys  []Pair     `yaml:"keys" is:"keyed"`
	Lamp  *lamp      `yaml:"lamp"`
	common
	Next way `yaml:"next"`
}

type common struct {
	Owner Word `yaml:"owner"`
}

type tool struct {
	Tool  Word   `yaml:"tool" is:"required plain"`
	Count Number `yaml:"count"`
}

type bin struct {
	ID    Word   `is:"key"`
	Holds []Word `yaml:"holds" is:"required"`
	Label Word   `yaml:"label" is:"required"`
}

type lamp struct {
	Watts Number `yaml:"watts" is:"required"`
}

// way reads itself: one word, or a word for each of several.
type way struct {
	One  Word
	Many []Pair
}

func (w *way) Fill(r *Reader, n *yaml.Node, what string) {
	if n.Kind == yaml.MappingNode {
		r.Keyed(n, &w.Many, what)
		return
	}
	r.Read(n, &w.One, what)
}

var form = NewForm(map[reflect.Type]string{
	reflect.TypeFor[shed](): "a shed", reflect.TypeFor[tool](): "a tool", reflect.TypeFor[bin](): "a bin",
}, "begin it with shed:")

func read(t testing.TB, text string) (shed, source.Issues) {
	t.Helper()
	file := &source.File{Name: "shed.yaml", Text: text}
	node, issues := form.Parse(file)
	if len(issues) > 0 {
		return shed{}, issues
	}
	r, s := form.Reader(file), shed{}
	r.Read(node, &s, "the file")
	return s, r.Issues.Sorted()
}

func TestReadFillsShapes(t *testing.T) {
	s, issues := read(t, strings.Join([]string{
		`shed: "Back\e[31m yard" # a remark`,
		`about: >-`,
		`  Dry,`,
		`  locked.`,
		`size: 1.5e1`,
		`open: No`,
		`plan: ["  [] ", x]`,
		`tools: [rake, {tool: saw, count: 2}]`,
		`bins: {left: {holds: [nuts, bolts], label: small}}`,
		`keys: {front: blue, "2": red}`,
		`owner: é`,
		`next: {a: b}`,
	}, "\n"))
	require.Empty(t, issues)
	at := func(line, column, length int) source.Place {
		return source.Place{File: "shed.yaml", Line: line, Column: column, Length: length}
	}
	require.Equal(t, "Back yard", s.Shed.Text, "escape sequences are taken out")
	require.Equal(t, at(1, 1, 0), s.Place)
	require.Equal(t, "Dry, locked.", s.About.Text)
	require.Equal(t, Number{Value: 15, Given: true, Place: at(5, 7, 5)}, s.Size)
	require.Equal(t, YesNo{Given: true, Place: at(6, 7, 2)}, s.Open)
	require.Equal(t, []string{"  [] ", "x"}, []string{s.Plan[0].Text, s.Plan[1].Text}, "a figure keeps its spaces")
	require.Equal(t, []tool{
		{Tool: Word{"rake", at(8, 9, 4)}},
		{Tool: Word{"saw", at(8, 22, 3)}, Count: Number{2, true, at(8, 34, 1)}},
	}, s.Tools)
	require.Equal(t, []bin{{
		ID: Word{"left", at(9, 8, 4)}, Holds: []Word{{"nuts", at(9, 23, 4)}, {"bolts", at(9, 29, 5)}},
		Label: Word{"small", at(9, 44, 5)},
	}}, s.Bins)
	require.Equal(t, []Pair{
		{Key: Word{"front", at(10, 8, 5)}, Value: Word{"blue", at(10, 15, 4)}},
		{Key: Word{"2", at(10, 21, 3)}, Value: Word{"red", at(10, 26, 3)}},
	}, s.Keys, "a quoted word counts its quotes")
	require.Equal(t, Word{"é", at(11, 8, 1)}, s.Owner, "an embedded shape counts as written out")
	require.Equal(t, []Pair{{Key: Word{"a", at(12, 8, 1)}, Value: Word{"b", at(12, 11, 1)}}}, s.Next.Many)
	require.Nil(t, s.Lamp)
	require.False(t, s.Rent.Given())
}

// Where a spot inside a formula stands in the file.
func TestExpressionsKnowTheirPlace(t *testing.T) {
	for _, c := range []struct {
		name, text         string
		formula            string
		line, column       int // of the spot in the formula
		wantLine, wantColm int
	}{
		{"plain", "shed: s\nrent: a + b", "a + b", 1, 5, 2, 11},
		{"quoted", "shed: s\nrent: \"a + b\"", "a + b", 1, 5, 2, 12},
		{"single quotes", "shed: s\nrent: 'é + b'", "é + b", 1, 5, 2, 12},
		{"escaped, only roughly", `{shed: s, rent: "a \x2B b"}`, "a + b", 1, 5, 1, 17},
		{"block", "shed: s\nrent: |\n    a +\n      b\n", "a +\n  b", 2, 3, 4, 7},
		{"number", "shed: s\nrent: 12", "12", 1, 2, 2, 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, issues := read(t, c.text)
			require.Empty(t, issues)
			require.Equal(t, c.formula, s.Rent.Text)
			got := s.Rent.Origin.At(c.line, c.column, 1)
			require.Equal(t, []int{c.wantLine, c.wantColm}, []int{got.Line, got.Column})
		})
	}
}

// Each mistake is told once, where the ¤ stands.
func TestWhatDoesNotFit(t *testing.T) {
	for _, c := range []struct {
		name, text string
		code       source.Code
		message    string
		hint       string
	}{
		{"a list for the whole", "¤- a", CodeWrongKind, "the file must have keys and values", "write shed: ..."},
		{"unknown key, near", "shed: s\n¤tols: []", CodeUnknownField, `a shed has no "tols"`, `did you mean "tools"?`},
		{"unknown key", "shed: s\ntools: [{tool: a, ¤colour: red}]", CodeUnknownField, `a tool has no "colour"`, "a tool may have: tool, count"},
		{"a text cut up by its commas", "shed: s\ntools: [{tool: a, ¤dry oak, elm}]", CodeUnknownField, `a tool has no "dry oak"`, "put a text or formula that holds a comma in quotes"},
		{"missing key", "¤owner: me", CodeMissing, `a shed lacks "shed"`, "add shed: ..."},
		{"several missing, of an id", "shed: s\nbins: {¤left: {}}", CodeMissing, `a bin lacks "holds" and "label"`, "add holds: ..."},
		{"missing in a shape without a name", "shed: s\nlamp: ¤{}", CodeMissing, `"lamp" lacks "watts"`, "add watts: ..."},
		{"misspelt is not missing too", "¤shde: s", CodeUnknownField, `a shed has no "shde"`, `did you mean "shed"?`},
		{"key twice", "shed: s\n¤shed: t", CodeDuplicateKey, `"shed" is written twice; the first is on line 1`, "keep one of them"},
		{"id twice", "shed: s\nkeys: {a: b, ¤a: c}", CodeDuplicateKey, `"a" is written twice; the first is on line 2`, "keep one of them"},
		{"a key of several words", "shed: s\n¤[a, b]: c", CodeWrongKind, "a key must be one word", "write key: value"},
		{"word for a list", "shed: s\ntools: ¤rake", CodeWrongKind, `"tools" must be a list`, "write [rake]"},
		{"keys for a list", "shed: s\ntools: ¤{rake: 1}", CodeWrongKind, `"tools" must be a list`, `write one item a line, each begun with "- "`},
		{"word for pairs", "shed: s\nkeys: ¤blue", CodeWrongKind, `"keys" must be written as name: value`, "write {name: value}"},
		{"list for a word", "shed: ¤[s]", CodeWrongKind, `"shed" must be one value, not a list`, "take the brackets away"},
		{"keys for a word", "shed: ¤{a: b}", CodeWrongKind, `"shed" must be one value, not keys and values`, "put a text with a colon or braces in quotes"},
		{"word for keys", "shed: s\nlamp: ¤bright", CodeWrongKind, `"lamp" must have keys and values`, "write watts: ..."},
		{"nothing", "shed:¤", CodeNothing, `"shed" is empty`, "write a value, or take the key away"},
		{"only invisible", `shed: ¤"\e[31m "`, CodeNothing, `"shed" is empty`, "write a value, or take the key away"},
		{"nothing in a list", "shed: s\ntools: [a, ¤'']", CodeNothing, `an item of "tools" is empty`, "write a value, or take the key away"},
		{"number with a unit", "shed: s\nsize: ¤12 m", CodeWrongKind, `"12 m" is not a number`, "write a number such as 12 or 0.5, without a unit"},
		{"endless number", "shed: s\nsize: ¤inf", CodeWrongKind, `"inf" is not a number`, "write a number such as 12 or 0.5, without a unit"},
		{"neither yes nor no", "shed: s\nopen: ¤often", CodeWrongKind, `"often" is neither true nor false`, "write true or false"},
		{"folded formula", "shed: s\nrent: ¤a +\n  b", CodeFolded, "a formula can't be folded over several lines", "write it on one line, or as a block begun with |"},
		{"folded in quotes", "shed: s\nrent: ¤\"a +\n  b\"", CodeFolded, "a formula can't be folded over several lines", "write it on one line, or as a block begun with |"},
		{"reference, told once", "shed: &a s\nowner: ¤*a\nabout: *a", CodeAlias, `"*a" refers to another part of the file`, "write it out in full; these files have no references"},
		{"reference for a tool", "shed: &a s\ntools: [¤*a]", CodeAlias, `"*a" refers to another part of the file`, "write it out in full; these files have no references"},
		{"merge", "¤<<: {shed: s}", CodeAlias, `"<<" merges another part of the file`, "write it out in full; these files have no references"},
		{"tag", "shed: ¤!odd s", CodeTag, `the tag "!odd" isn't used in these files`, "leave it out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after, _ := strings.Cut(c.text, "¤")
			_, issues := read(t, before+after)
			require.Len(t, issues, 1, "%v", issues)
			lines := strings.Split(before, "\n")
			require.Equal(t, []any{c.code, c.message, c.hint}, []any{issues[0].Code, issues[0].Message, issues[0].Hint})
			require.Equal(t, []int{len(lines), len([]rune(lines[len(lines)-1])) + 1}, []int{issues[0].Place.Line, issues[0].Place.Column})
		})
	}
}

func TestEverythingIsToldAtOnce(t *testing.T) {
	_, issues := read(t, "size: big\nopen: maybe\ntools: rake\ncolour: red\n")
	var codes []source.Code
	for _, i := range issues {
		codes = append(codes, i.Code)
	}
	require.Equal(t, []source.Code{CodeMissing, CodeWrongKind, CodeWrongKind, CodeWrongKind, CodeUnknownField}, codes)
}

func TestNewReaderNeedsNoForm(t *testing.T) {
	file := &source.File{Name: "x", Text: "{watts: 5}"}
	node, issues := Parse(file)
	require.Empty(t, issues)
	r, l := NewReader(file, nil), lamp{}
	r.Read(node, &l, "a lamp")
	require.Empty(t, r.Issues)
	require.InDelta(t, 5, l.Watts.Value, 0)
	require.Equal(t, []string{"tool", "count"}, Keys[tool]())
}
