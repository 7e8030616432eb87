package tree

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// holdShape is how long something is held or waited for, seconds: one time, or
// several one after another.
type holdShape struct {
	Place source.Place
	Times []number
}

// Kinds are what it may be written as.
func (h *holdShape) Kinds() []reflect.Type {
	return []reflect.Type{reflect.TypeFor[number](), reflect.TypeFor[[]number]()}
}

// Fill reads one time, or several.
func (h *holdShape) Fill(r *shape.Reader, n *yaml.Node, what string) {
	if n.Kind == yaml.SequenceNode {
		r.Read(n, &h.Times, what)
		return
	}
	var one number
	r.Read(n, &one, what)
	h.Times = []number{one}
}

func (h *holdShape) place() source.Place {
	if h == nil {
		return source.Place{}
	}
	return h.Place
}

// The shortest and the longest time that is counted down, seconds. A shorter one
// is over before the eye is on it; a longer one is for the clock on the wall.
const (
	shortestHold = 2
	longestHold  = 4 * 3600
)

// hold is the times of a step. Each has to stand in one of the texts that say what
// to do: plain lines have only those, and the two must not part.
func (b *builder) hold(h *holdShape, texts ...string) []int {
	if h == nil {
		return nil
	}
	var told, out []int
	if !b.trusting {
		for _, text := range texts {
			told = append(told, saidSeconds(text)...)
		}
	}
	for _, n := range h.Times {
		v := n.Value
		switch {
		case !n.Given: // reported as it was read
			continue
		case v != math.Trunc(v) || v < shortestHold || v > longestHold:
			b.report(CodeBadNumber, n.Place, fmt.Sprintf("%g is no time that is counted down", v),
				fmt.Sprintf("write whole seconds, %d to %d", shortestHold, longestHold))
			continue
		case !b.trusting && !slices.Contains(told, int(v)):
			b.report(CodeHold, n.Place, fmt.Sprintf("what to do doesn't say %g seconds%s", v, insteadSays(told)),
				"write the same time in words in tell: (see: of something noticed), or change it here")
		}
		out = append(out, int(v))
	}
	return out
}

// insteadSays is what times a text says, for a message.
func insteadSays(told []int) string {
	if len(told) == 0 {
		return "; it says no time"
	}
	var words []string
	for _, t := range told {
		words = append(words, strconv.Itoa(t))
	}
	return "; it says " + strings.Join(words, ", ")
}

// allTold are the texts that say what to do at a test: of its setups, its state and
// its own.
func (n *systemNotes) allTold(t *Test, s testShape) []string {
	out := []string{s.Tell.Text, s.See.Text}
	if state := n.system.State(t.State); state != nil {
		out = append(out, state.Tell)
	}
	for _, id := range t.With {
		if setup := n.system.Setup(id); setup != nil {
			out = append(out, setup.Tell)
		}
	}
	return out
}

// Holds are the times of a test, seconds, in the order of doing: its own, or else
// those of its setups and its state.
func (s *System) Holds(t *Test) []int {
	if len(t.Hold) > 0 {
		return t.Hold
	}
	var out []int
	for _, id := range t.With {
		if setup := s.Setup(id); setup != nil {
			out = append(out, setup.Hold...)
		}
	}
	switch state := s.State(t.State); {
	case state == nil:
	case state.Live():
		out = append(out, state.Hold...)
	default: // what makes it dead is told first
		out = append(slices.Clone(state.Hold), out...)
	}
	return out
}

// said finds a time in a text: "half a minute", "fifteen seconds", "15 s".
var said = regexp.MustCompile(`(?i)\b(?:(half|a quarter of) an? |(` + strings.Join(counted(), "|") + `|an?|[0-9]+) (?:full )?)(seconds?|minutes?|hours?|s|min|h)\b`)

// numberWords are the numbers that texts write out.
var numberWords = []string{
	1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine", 10: "ten",
	11: "eleven", 12: "twelve", 15: "fifteen", 20: "twenty", 30: "thirty", 40: "forty", 45: "forty-five", 60: "sixty", 90: "ninety",
}

func counted() []string {
	return slices.DeleteFunc(slices.Clone(numberWords), func(w string) bool { return w == "" })
}

// saidSeconds are the times that a text says, seconds, as they stand in it.
func saidSeconds(text string) []int {
	var out []int
	for _, m := range said.FindAllStringSubmatch(strings.Join(strings.Fields(text), " "), -1) {
		share, count, unit := strings.ToLower(m[1]), strings.ToLower(m[2]), strings.ToLower(m[3])
		each := map[byte]int{'s': 1, 'm': 60, 'h': 3600}[unit[0]]
		switch n, err := strconv.Atoi(count); {
		case share == "half":
			out = append(out, each/2)
		case share != "":
			out = append(out, each/4)
		case err == nil:
			out = append(out, n*each)
		case count == "a" || count == "an":
			out = append(out, each)
		default:
			out = append(out, slices.Index(numberWords, count)*each)
		}
	}
	return out
}
