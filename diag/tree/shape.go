package tree

import (
	"reflect"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// The shapes are the files as they are written: every word with its place,
// nothing looked up yet. Package shape says what the tags mean.
type (
	word       = shape.Word
	prose      = shape.Prose
	number     = shape.Number
	yesNo      = shape.YesNo
	expression = shape.Expression
	figure     = shape.Figure
	pair       = shape.Pair
)

type systemShape struct {
	System     word             `yaml:"system" is:"required"`
	Title      word             `yaml:"title" is:"required"`
	About      prose            `yaml:"about" is:"required"`
	Machine    word             `yaml:"machine"`
	Extends    word             `yaml:"extends"`
	Without    []word           `yaml:"without"`
	Include    []word           `yaml:"include"`
	Complaints []complaintShape `yaml:"complaints"`
	contents
	Sketch   *sketchShape `yaml:"sketch"`
	HandBack []word       `yaml:"hand back"`
	Well     []proofShape `yaml:"well" is:"keyed"`
}

type sharedShape struct {
	Shared word  `yaml:"shared" is:"required"`
	Title  word  `yaml:"title"`
	About  prose `yaml:"about"`
	contents
}

// contents is what a system and a shared file have in common.
type contents struct {
	History []choiceShape `yaml:"history"`
	Label   []labelShape  `yaml:"label"`
	Points  []pointShape  `yaml:"points"`
	States  []stateShape  `yaml:"states"`
	Setups  []setupShape  `yaml:"setups"`
	Work    []workShape   `yaml:"work"`
	Tests   []testShape   `yaml:"tests"`
	Faults  []faultShape  `yaml:"faults"`
	Service []word        `yaml:"service"`
	NotFor  []notForShape `yaml:"not for"`
	Agree   []agreeShape  `yaml:"agree"`
}

// agreeShape is what some readings can't be beside another.
type agreeShape struct {
	Each  []word `yaml:"each" is:"required"`
	Most  word   `yaml:"at most" is:"required"`
	Over  number `yaml:"over" is:"required"`
	Basis word   `yaml:"basis" is:"required"`
	Says  prose  `yaml:"says" is:"required"`
}

// notForShape is what a machine of some kind is neither asked nor offered.
type notForShape struct {
	Label     word   `yaml:"label"`
	Test      word   `yaml:"test"`
	Says      []word `yaml:"says" is:"required"`
	LeavesOut []word `yaml:"leaves out" is:"required"`
}

type complaintShape struct {
	Complaint word   `yaml:"complaint" is:"required"`
	Title     word   `yaml:"title" is:"required"`
	Trouble   word   `yaml:"trouble"`
	Trees     []word `yaml:"trees" is:"required"`
	ToTheEnd  yesNo  `yaml:"to the end"`
}

type labelShape struct {
	Field   word       `yaml:"field" is:"required"`
	Ask     word       `yaml:"ask" is:"required"`
	Tell    prose      `yaml:"tell"`
	Unit    word       `yaml:"unit"`
	Options []word     `yaml:"options"`
	Default expression `yaml:"default" is:"required"`
	Least   number     `yaml:"least"`
	Most    number     `yaml:"most"`
	From    number     `yaml:"usual from"`
	To      number     `yaml:"usual to"`
}

type pointShape struct {
	Point   word   `yaml:"point" is:"required"`
	Title   word   `yaml:"title" is:"required"`
	Minutes number `yaml:"minutes"`
	Cover   word   `yaml:"cover"`
}

type stateShape struct {
	State   word       `yaml:"state" is:"required"`
	Title   word       `yaml:"title" is:"required"`
	Tell    prose      `yaml:"tell" is:"required"`
	Hold    *holdShape `yaml:"hold"`
	Needs   []pair     `yaml:"needs" is:"keyed"`
	Powered yesNo      `yaml:"powered"`
	Moving  yesNo      `yaml:"moving"`
	Late    yesNo      `yaml:"late"`
}

type setupShape struct {
	Setup    word       `yaml:"setup" is:"required"`
	Title    word       `yaml:"title" is:"required"`
	Tell     prose      `yaml:"tell" is:"required"`
	Hold     *holdShape `yaml:"hold"`
	Needs    []pair     `yaml:"needs" is:"keyed"`
	Cautions []word     `yaml:"cautions"`
}

type workShape struct {
	Work     word       `yaml:"work" is:"required"`
	Title    word       `yaml:"title" is:"required"`
	Tell     prose      `yaml:"tell" is:"required"`
	Hold     *holdShape `yaml:"hold"`
	Why      prose      `yaml:"why"`
	Minutes  number     `yaml:"minutes" is:"required"`
	Needs    []pair     `yaml:"needs" is:"keyed"`
	Cautions []word     `yaml:"cautions"`
}

type testShape struct {
	Test     word          `yaml:"test" is:"required"`
	Title    word          `yaml:"title" is:"required"`
	Measure  word          `yaml:"measure"`
	See      prose         `yaml:"see"`
	From     expression    `yaml:"from"`
	Leads    *leadsShape   `yaml:"leads"`
	State    word          `yaml:"state"`
	With     []word        `yaml:"with"`
	After    word          `yaml:"after"`
	Scale    word          `yaml:"scale"`
	In       word          `yaml:"in"`
	Tell     prose         `yaml:"tell"`
	Hold     *holdShape    `yaml:"hold"`
	Why      prose         `yaml:"why"`
	Mistake  prose         `yaml:"mistake"`
	Minutes  number        `yaml:"minutes"`
	People   number        `yaml:"people"`
	Alone    prose         `yaml:"alone"`
	Cautions []word        `yaml:"cautions"`
	Healthy  *spanShape    `yaml:"healthy"`
	Possible *spanShape    `yaml:"possible"`
	Bands    []bandShape   `yaml:"bands"`
	Choices  []choiceShape `yaml:"choices"`
}

func (s testShape) leads() source.Place {
	if s.Leads == nil {
		return source.Place{}
	}
	return s.Leads.Place
}

func (s testShape) bands() source.Place {
	if len(s.Bands) == 0 {
		return source.Place{}
	}
	return s.Bands[0].Band.Place
}

func (s testShape) choices() source.Place {
	if len(s.Choices) == 0 {
		return source.Place{}
	}
	return s.Choices[0].Choice.Place
}

func (s *spanShape) place() source.Place {
	if s == nil {
		return source.Place{}
	}
	return s.Place
}

type leadsShape struct {
	Place source.Place
	Red   word `yaml:"red" is:"required"`
	Black word `yaml:"black"`
}

type spanShape struct {
	Place source.Place
	From  expression `yaml:"from"`
	To    expression `yaml:"to"`
	Say   word       `yaml:"say"`
}

type bandShape struct {
	Band   word       `yaml:"band" is:"required"`
	Below  expression `yaml:"below"`
	Basis  word       `yaml:"basis"`
	SuchAs []number   `yaml:"such as"`
	Clears []word     `yaml:"clears"`
	Danger word       `yaml:"danger"`
	Stops  yesNo      `yaml:"stops"`
	Says   prose      `yaml:"says"`
	Take   word       `yaml:"take"`
}

type choiceShape struct {
	Choice word   `yaml:"choice" is:"required plain"`
	Title  word   `yaml:"title"`
	Clears []word `yaml:"clears"`
	Danger word   `yaml:"danger"`
	Stops  yesNo  `yaml:"stops"`
	Says   prose  `yaml:"says"`
	Take   word   `yaml:"take"`
	Absent yesNo  `yaml:"absent"`
}

type faultShape struct {
	Fault  word   `yaml:"fault" is:"required"`
	Title  word   `yaml:"title" is:"required"`
	Part   word   `yaml:"part"`
	Says   prose  `yaml:"says" is:"required"`
	Masks  []word `yaml:"masks"`
	Danger word   `yaml:"danger"`
}

type sketchShape struct {
	Marks []pair   `yaml:"marks" is:"keyed"`
	Lines []figure `yaml:"lines" is:"required"`
}

type treeShape struct {
	Tree    word        `yaml:"tree" is:"required"`
	Title   word        `yaml:"title" is:"required"`
	Systems []word      `yaml:"systems"`
	Include word        `yaml:"systems with"`
	Judges  []word      `yaml:"judges"`
	Inner   yesNo       `yaml:"inner"`
	Extends word        `yaml:"extends"`
	Without []word      `yaml:"without"`
	Begin   word        `yaml:"begin"`
	Steps   []stepShape `yaml:"steps" is:"keyed"`
}

type stepShape struct {
	ID      word         `is:"key"`
	Test    word         `yaml:"test"`
	Do      word         `yaml:"do"`
	Find    word         `yaml:"find"`
	Clear   word         `yaml:"clear"`
	Walk    word         `yaml:"walk"`
	Stop    prose        `yaml:"stop"`
	Caution word         `yaml:"caution"`
	Then    *thenShape   `yaml:"then"`
	Else    word         `yaml:"else"`
	AtMost  number       `yaml:"at most"`
	Stales  []word       `yaml:"stales"`
	Powered yesNo        `yaml:"stales powered"`
	By      []proofShape `yaml:"by" is:"keyed"`
	After   []word       `yaml:"after"`
}

// thenShape is one step, or one for each outcome.
type thenShape struct {
	Place  source.Place
	Next   word
	Routes []pair
}

// Kinds are what it may be written as.
func (t *thenShape) Kinds() []reflect.Type {
	return []reflect.Type{reflect.TypeFor[word](), reflect.TypeFor[[]pair]()}
}

// Fill reads one step, or a step for each outcome.
func (t *thenShape) Fill(r *shape.Reader, n *yaml.Node, what string) {
	if n.Kind == yaml.MappingNode {
		r.Keyed(n, &t.Routes, what)
		return
	}
	r.Read(n, &t.Next, what)
}

func (t *thenShape) place() source.Place {
	if t == nil {
		return source.Place{}
	}
	return t.Place
}

func (s stepShape) by() source.Place {
	if len(s.By) == 0 {
		return source.Place{}
	}
	return s.By[0].Test.Place
}

// first is where a list's first word stands; no place when it is empty.
func first(list []word) source.Place {
	if len(list) == 0 {
		return source.Place{}
	}
	return list[0].Place
}

type proofShape struct {
	Test  word   `is:"key"`
	Bands []word `is:"plain required"`
}
