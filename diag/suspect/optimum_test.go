package suspect

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
)

// The sign-post of testdata is small enough to work out the cheapest way to tell what
// is wrong, and so to see how much dearer it is to take the best offer each time.
// Finding the cheapest way is hard for a large machine, and bits by the minute is the
// usual way out: Pattipati and Alexandridis, Application of heuristic search and
// information theory to sequential fault diagnosis, IEEE Transactions on Systems, Man,
// and Cybernetics 20 (1990) 872-887.
//
// Nothing is switched on for any test and no look shows a danger, so that minutes alone
// decide: safer tests first, and dangers first, play no part.

// kind is machines that show the same at every test.
type kind struct {
	fault string // "": gone while testing
	way   string
	share float64
}

// kinds are those of the circuit file: a fault as common as it says, its ways by their
// shares (5 x 3/5 and 5 x 2/5 of the fuse, 6 x 2/3 and 6 x 1/3 of the lamp). The faults
// sum to 24, and 5 in 100 of all machines have none any more.
var kinds = []kind{
	{"bat.dead", "empty", 4},
	{"fuse.open", "burnt", 3},
	{"fuse.open", "tired", 2},
	{"cable.open", "cut", 3},
	{"joint.open", "rusted", 2},
	{"sensor.open", "struck", 4},
	{"lamp.open", "blackened", 4},
	{"lamp.open", "broken", 2},
	{"", "", 24 * 0.05 / 0.95},
}

// What must be open or found for a test, and its minutes.
const (
	negative = 1 << iota
	box
	foot
	head
)

var opening = map[int]float64{negative: 0.5, box: 2, foot: 8, head: 10}

// sheet is what each test costs and shows on each kind, in order: 12 V or nothing at
// the points of a row that is cut somewhere, and whether a look shows anything.
var sheet = map[string]struct {
	minutes float64
	behind  int
	shows   string
}{
	"battery":   {1, negative | box, "-++++++++"},
	"fuse":      {1, negative | box, "---++++++"},
	"foot":      {1.5, negative | foot, "----+++++"},
	"head":      {1, negative | head, "-----++++"},
	"lamp":      {1, negative | head, "------+++"},
	"glows":     {1, 0, "--------+"},
	"fuse_look": {2, 0, "-+-------"},
	"glass":     {8, 0, "------+--"},
}

// belief is the kinds that fit all answers, a bit each, and what is open.
type belief struct{ left, open int }

// optimum is the fewest minutes expected until one fault is sure, by dynamic
// programming over all beliefs. No test is worth taking that doesn't part what is left.
func optimum(b belief, known map[belief]float64) float64 {
	if told(b.left) {
		return 0
	}
	if cost, ok := known[b]; ok {
		return cost
	}
	best := math.Inf(1)
	for _, test := range sheet {
		yes := 0
		for i := range kinds {
			if test.shows[i] == '+' {
				yes |= b.left & (1 << i)
			}
		}
		no := b.left &^ yes
		if yes == 0 || no == 0 {
			continue
		}
		cost := test.minutes
		for what, minutes := range opening {
			if test.behind&^b.open&what != 0 {
				cost += minutes
			}
		}
		for _, part := range []int{yes, no} {
			cost += share(part) / share(b.left) * optimum(belief{part, b.open | test.behind}, known)
		}
		best = math.Min(best, cost)
	}
	known[b] = best
	return best
}

// told says whether all that is left has one fault.
func told(left int) bool {
	fault := kinds[bits.TrailingZeros(uint(left))].fault
	for i, k := range kinds {
		if left&(1<<i) != 0 && k.fault != fault {
			return false
		}
	}
	return true
}

func share(left int) float64 {
	sum := 0.0
	for i, k := range kinds {
		if left&(1<<i) != 0 {
			sum += k.share
		}
	}
	return sum
}

// post is the sign-post with the machines of the cloud, and what they are asked with.
type post struct {
	maker   *virtual.Maker
	cloud   *Cloud
	options Options
}

func signPost(t *testing.T) post {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, root, "diag/suspect/testdata/post"))
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["sign-post"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	o := Options{Seed: 1, Machines: 100, Meter: lib.Instruments("pocket")}
	cloud, err := Build(maker, "dark", o)
	require.NoError(t, err)
	return post{maker, cloud, o}
}

// machine is one of a kind, of another seed than the cloud's.
func (p post) machine(t *testing.T, k kind, number int) *virtual.Machine {
	t.Helper()
	d := virtual.Draw{Seed: 2, Number: number}
	if k.fault != "" {
		d.Faults, d.Ways = []string{k.fault}, map[string]string{k.fault: k.way}
	}
	m, err := p.maker.Build(d)
	require.NoError(t, err)
	return m
}

func (p post) ask(t *testing.T, m *virtual.Machine, test *tree.Test) Answer {
	t.Helper()
	s, err := m.Shows(test, virtual.Bench{Meter: p.options.Meter, Noise: true})
	require.NoError(t, err)
	if test.Kind == tree.Observed {
		return Answer{Kind: Seen, Choice: s.Choice}
	}
	return Of(s.Reading, p.options.Meter)
}

// solve takes the offer that is picked until one suspect is sure, and says in how many
// minutes.
func (p post) solve(t *testing.T, k kind, number int, pick func([]Offer) Offer) float64 {
	t.Helper()
	m, minutes := p.machine(t, k, number), 0.0
	at := At{Access: benchtime.New(p.cloud.system), Taken: map[Key]bool{}}
	var readings []Reading
	for {
		w := p.cloud.Weigh(readings)
		named, sure := w.Named()
		offers := w.Next(at)
		if !sure && len(offers) > 0 {
			o := pick(offers)
			minutes += at.Access.Take(o.Test)
			at.Taken[Key{"", o.Test.ID}] = true
			readings = append(readings, Reading{Key{"", o.Test.ID}, p.ask(t, m, o.Test)})
			continue
		}
		require.True(t, sure, "%s is not told", k.fault)
		require.Equal(t, k.fault, strings.Join(named.Faults, " + "))
		return minutes
	}
}

// mean is the minutes over all kinds, each as often as it comes.
func (p post) mean(t *testing.T, pick func([]Offer) Offer) float64 {
	t.Helper()
	const machines = 5
	sum := 0.0
	for _, k := range kinds {
		for number := range machines {
			sum += k.share / machines * p.solve(t, k, number, pick)
		}
	}
	return sum / share(1<<len(kinds)-1)
}

// In 72 posts with other minutes for the box, the foot, the head and the looks, the
// best offers were never more than 1.11 times as dear as the cheapest way. The minutes
// of this one were chosen so that worse ways to pick are seen: the best offers come to
// 1.04 times, the others to 1.17 and more, the last offer to 1.91 times.
func TestTheBestOffersAreNearlyAsCheapAsCanBe(t *testing.T) {
	const near = 1.15
	p := signPost(t)
	cheapest := optimum(belief{left: 1<<len(kinds) - 1}, map[belief]float64{})
	require.Less(t, p.mean(t, func(o []Offer) Offer { return o[0] }), near*cheapest)

	fresh := benchtime.New(p.cloud.system)
	for says, worth := range map[string]func(Offer) float64{
		"bits, whatever the minutes":   func(o Offer) float64 { return o.Bits },
		"minutes, whatever the bits":   func(o Offer) float64 { return -o.Minutes },
		"without the way to the point": func(o Offer) float64 { return o.Bits / o.Test.Minutes },
		"as if a cover closed again":   func(o Offer) float64 { return o.Bits / fresh.Minutes(o.Test) },
	} {
		minutes := p.mean(t, func(offers []Offer) Offer {
			return slices.MaxFunc(offers, func(a, b Offer) int { return cmp.Compare(worth(a), worth(b)) })
		})
		require.Greater(t, minutes, near*cheapest, says)
	}
	require.Greater(t, p.mean(t, func(o []Offer) Offer { return o[len(o)-1] }), near*cheapest, "the last offer")
}

// By hand, in minutes: a joint and a sensor are told apart only at the head, 10 up the
// ladder, 0.5 to the negative post and 1; with both open, in 1. A burnt fuse and a dead
// battery are told by a look in 2, where the box would cost 2 + 0.5 + 1. Two ways of one
// fault need no telling. Of the two and a cable, 3 + 2 + 4 common, the head tells the
// sensor for 11.5, and in 5 of 9 the cable and the joint are left: 8 + 1.5 at the foot.
func TestTheCheapestWayByHand(t *testing.T) {
	const battery, burnt, tired, cable, joint, sensor = 1, 2, 4, 8, 16, 32
	known := map[belief]float64{}
	require.InDelta(t, 11.5, optimum(belief{joint | sensor, 0}, known), 1e-9)
	require.InDelta(t, 1, optimum(belief{joint | sensor, negative | head}, known), 1e-9)
	require.InDelta(t, 2, optimum(belief{battery | burnt, 0}, known), 1e-9)
	require.Zero(t, optimum(belief{burnt | tired, 0}, known))
	require.InDelta(t, 11.5+5.0/9*9.5, optimum(belief{cable | joint | sensor, 0}, known), 1e-9)
}

// The sheet is what the machines show, and not another sign-post.
func TestTheSheetIsWhatTheMachinesShow(t *testing.T) {
	p := signPost(t)
	require.Len(t, p.cloud.system.Tests, len(sheet))
	nothing := map[string]string{"glows": "dark", "fuse_look": "whole", "glass": "clear"}
	for _, test := range p.cloud.system.Tests {
		require.Equal(t, Still, riskOf(p.cloud.system, test), test.ID)
		require.False(t, looks(p.cloud.system, test), test.ID)
		minutes := sheet[test.ID].minutes
		for what, m := range opening {
			if sheet[test.ID].behind&what != 0 {
				minutes += m
			}
		}
		require.InDelta(t, minutes, benchtime.New(p.cloud.system).Minutes(test), 1e-9, test.ID)
		for i, k := range kinds {
			a := p.ask(t, p.machine(t, k, 0), test)
			yes := a.Kind == Number && a.Value > 6 || a.Kind == Seen && a.Choice != nothing[test.ID]
			require.Equal(t, sheet[test.ID].shows[i] == '+', yes, "%s of %s: %v", test.ID, k.way, a)
		}
	}
}
