package tree

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mostListed is the lines of each list of a repair: what a person at the bench keeps in mind.
const mostListed = 4

func TestListsOfARepairAreShort(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, r := range lib.Repairs {
		for name, lines := range map[string]int{
			"off": len(r.Off), "kept": len(r.Kept), "scrap": len(r.Scrap), "fasteners": len(r.Fasteners),
		} {
			require.LessOrEqual(t, lines, mostListed, "%s: %s", id, name)
		}
	}
}

// A new part has an old one, and somebody has to know where that goes.
func TestWhatIsReplacedGoesSomewhere(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	// These are fitted where nothing was, or go beside what is there.
	added := []string{"hardware", "disconnect", "maintainer", "recoil-starter", "rope-handle-guide", "gasket-set", "bond-strap"}
	for id, r := range lib.Repairs {
		for _, p := range r.Parts {
			if !slices.Contains(added, p.Part) {
				require.True(t, len(r.Scrap) > 0 || len(r.Bin) > 0, "%s: nothing says where the old %s goes", id, p.Part)
			}
		}
	}
}

// What harms ground, water or hands goes where it is taken, and the repair says so.
func TestWasteThatHarmsIsCollected(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for part, says := range map[string]string{
		"battery-12v": "battery collection point", "pack": "battery collection point", "oil-change": "collection",
		"pack-charger": "plug cut off", "wall-charger": "plug cut off", "mains-cordset": "plug cut off", "extension-cord": "plug cut off",
		"fuel-filter": "hazardous-waste collection", "blade-clutch": "wiped up damp", "blade-brake": "wiped up damp",
	} {
		used := 0
		for id, r := range lib.Repairs {
			if slices.ContainsFunc(r.Parts, func(p PartUse) bool { return p.Part == part }) {
				used++
				require.Contains(t, strings.Join(r.Scrap, "\n"), says, "%s fits %s", id, part)
			}
		}
		require.Positive(t, used, part)
	}
}

// A used piece is either never kept, or there is something that it has to show.
func TestEveryPartHasItsWayToTheBin(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, p := range lib.Parts {
		require.True(t, p.NoBin != "" || len(p.BinNeeds) > 0, id)
	}
	for _, id := range []string{"fuse", "fuse-holder", "glow-fuse", "mains-cordset", "extension-cord", "pack-charger", "blade-brake", "blade-clutch"} {
		require.NotEmpty(t, lib.Parts[id].NoBin, id)
	}
	pack := strings.Join(lib.Parts["pack"].BinNeeds, "\n")
	for _, shown := range []string{"below its floor", "Capacity", "24 hours"} {
		require.Contains(t, pack, shown)
	}
	for _, id := range []string{
		"brake-switch", "blade-switch", "seat-switch", "neutral-switch", "reverse-switch", "safety-switch", "stop-switch", "lever-switch", "pto-switch", "start-button",
	} {
		needs := strings.ToLower(strings.Join(lib.Parts[id].BinNeeds, "\n"))
		for _, shown := range []string{"open", "closed", "read in ohms"} {
			require.Contains(t, needs, shown, id)
		}
	}
}

// How long something lasts is a judgement, and owns up to it.
func TestLivesAreJudgements(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	lives := 0
	for id, p := range lib.Parts {
		if p.Life != nil {
			lives++
			require.Contains(t, p.Life.Judgement, "no source", id)
			require.LessOrEqual(t, p.Life.Seasons, 10.0, "%s: what lasts so long needs none", id)
		}
	}
	require.Positive(t, lives)
}

// Nothing leaves without an offer, and no system is offered what it lacks.
func TestEverySystemHasServices(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, s := range lib.Systems {
		require.NotEmpty(t, s.Service, id)
	}
	has := func(system, service string) bool { return slices.Contains(lib.Systems[system].Service, service) }
	require.True(t, has("generator-brushed", "run-loaded"))
	require.True(t, has("generator-capacitor", "run-loaded"))
	require.True(t, has("housing-solenoid", "posts"), "as the system that it extends")
	require.False(t, has("small-diesel", "plug"), "it has no spark plug")
	require.False(t, has("button-start-pack", "posts"), "it has no battery posts")
	require.False(t, has("mains-starter", "blade"), "it has an auger")
}

// Hands come where something turns, burns or falls: the machine is made safe before,
// as before a repair there.
func TestADangerousServiceIsMadeSafeFirst(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, s := range lib.Services {
		for _, hazard := range []string{"blade", "rotating", "raised-machine", "gasoline", "injected-fuel", "lead-acid-gas", "generator-output"} {
			require.False(t, slices.Contains(s.Cautions, hazard) && len(s.Needs) == 0, "%s: %s, and it needs nothing", id, hazard)
		}
	}
	for id, sys := range lib.Systems {
		has := lib.SafeOf(sys)
		for _, service := range []string{"blade", "deck", "belts", "fins"} {
			if !slices.Contains(sys.Service, service) {
				continue
			}
			needs := has.Of(lib.Services[service].Needs)
			if has.Has("spark-lead", "off") {
				require.Equal(t, "off", needs["spark-lead"], "%s: %s", id, service)
			}
			// The engine must not turn over either: with what cranks it off.
			for item, off := range map[string]string{"battery-negative": "off", "any-battery": "off", "pack": "out", "mains-plug": "out"} {
				if has.Has(item, off) {
					require.Equal(t, off, needs[item], "%s: %s", id, service)
				}
			}
		}
	}
}

// With the battery's negative off 0 V on a stop wire proves nothing: a repair that has
// it off says when it goes on, and has spark and fuel off and the wire free meanwhile.
func TestNothingIsProvedOnADeadWire(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	proved := 0
	for id, r := range lib.Repairs {
		dead := r.Needs["battery-negative"] == "off" || r.Needs["any-battery"] == "off"
		for _, step := range r.Steps {
			low := strings.ToLower(step)
			if !dead || !strings.Contains(low, "0 v dc") && !strings.Contains(low, "read 0 v") || !strings.Contains(strings.ToLower(strings.Join(r.Steps, " ")), "stop wire") && !strings.Contains(low, "coil") {
				continue
			}
			proved++
			if strings.Contains(step, "until the checks read") {
				continue // those are tests, with a state that has the battery on
			}
			require.Regexp(t, "on for th(is|ese)", step, "%s: the battery is off", id)
			for _, item := range []string{"spark-lead", "fuel", "stop-wire"} {
				require.Equal(t, "off", r.Needs[item], "%s: %s", id, item)
			}
		}
	}
	require.Greater(t, proved, 6)
}

// Whoever opens fuel, a key switch or a battery's lead has it made safe, as every
// sibling has.
func TestARepairIsMadeSafeAsItsSiblingsAre(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, r := range lib.Repairs {
		for _, use := range r.Parts {
			if use.Part == "key-switch" && !slices.Equal(r.Systems, []string{"small-diesel"}) && (r.Needs["battery-negative"] == "off" || r.Needs["any-battery"] == "off") {
				require.Contains(t, r.Cautions, "magneto-battery-volts", id)
			}
		}
		if slices.Contains(r.Cautions, "injected-fuel") && len(r.Off) > 0 {
			require.Equal(t, "off", r.Needs["fuel"], id)
			require.Equal(t, "off", r.Needs["battery-negative"], id)
		}
		if slices.Contains(r.Cautions, "lead-acid-gas") {
			require.NotEmpty(t, r.Needs, id)
		}
	}
}

// Fuel in a can and an engine that runs are warned of before anybody begins.
func TestFuelAndExhaustAreWarnedOf(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	drained := 0
	for id, r := range lib.Repairs {
		waste := strings.ToLower(strings.Join(r.Scrap, "\n"))
		if strings.Contains(waste, "fuel") && strings.Contains(waste, "can") {
			drained++
			require.True(t, slices.ContainsFunc([]string{"gasoline", "fuel-at-the-bowl", "injected-fuel"}, func(c string) bool {
				return slices.Contains(r.Cautions, c)
			}), "%s: fuel comes out", id)
		}
	}
	require.Positive(t, drained)
	run := 0
	for id, s := range lib.Services {
		if strings.Contains(s.Tell, "run") && strings.Contains(strings.ToLower(s.Tell), "outdoors") {
			run++
			require.Contains(t, s.Cautions, "carbon-monoxide", id)
		}
	}
	require.Positive(t, run)
}
