package app

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/prove"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// simulatedPump is the pump with its circuit, and how one is taken in.
func simulatedPump(t *testing.T) (*tree.Library, job.Intake) {
	t.Helper()
	root := filepath.Join("..", "..", "..")
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	files = treetest.Change(t, files, "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}")
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	return lib, job.Intake{System: "spray-pump", Complaint: "dead", Celsius: 20, Meter: lib.Instruments(prove.BenchMeter)}
}

func never() bool { return true }

// makeCloud makes one on so many cores, in a folder.
func makeCloud(lib *tree.Library, files cloudFiles, in job.Intake, cores int, stop func() bool, stages ...string) (*suspect.Cloud, error) {
	return cloudMaker{whole(lib), files, cores, stop}.make(wanted{in, cloudDigest(lib, in), stages}, nil, nil)
}

func bytesOf(t *testing.T, c *suspect.Cloud) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, c.Write(&out))
	return out.Bytes()
}

func TestACloudIsKeptAndMadeAgainWhenItIsDamaged(t *testing.T) {
	lib, in := simulatedPump(t)
	dir := cloudFiles(filepath.Join(t.TempDir(), "not there yet"))
	digest := cloudDigest(lib, in)
	first, err := makeCloud(lib, dir, in, 2, nil)
	require.NoError(t, err)

	kept, err := makeCloud(lib, dir, in, 1, never)
	require.NoError(t, err, "nothing has to be simulated")
	require.Equal(t, bytesOf(t, first), bytesOf(t, kept))

	whole, err := os.ReadFile(dir.path(digest))
	require.NoError(t, err)
	for what, bad := range map[string][]byte{
		"empty": {}, "cut off": whole[:len(whole)/2], "a byte changed": append(append([]byte{}, whole[:len(whole)-1]...), whole[len(whole)-1]^1), "other": []byte("no cloud at all, but longer than a sum of it would be"),
	} {
		require.NoError(t, os.WriteFile(dir.path(digest), bad, 0o600))
		_, err = makeCloud(lib, dir, in, 1, never)
		require.ErrorIs(t, err, suspect.ErrStopped, "%s: it has to be made again", what)
		again, err := makeCloud(lib, dir, in, 2, nil)
		require.NoError(t, err)
		require.Equal(t, bytesOf(t, first), bytesOf(t, again), what)
		mended, err := os.ReadFile(dir.path(digest))
		require.NoError(t, err)
		require.Equal(t, whole, mended, what)
	}
}

func TestAnotherMachineHasAnotherCloud(t *testing.T) {
	lib, in := simulatedPump(t)
	digest := cloudDigest(lib, in)
	require.Equal(t, digest, cloudDigest(lib, in))
	for what, change := range map[string]func(*job.Intake){
		"complaint": func(in *job.Intake) { in.Complaint = "well" },
		"label":     func(in *job.Intake) { in.Label = map[string]float64{"volts": 6} },
		"words":     func(in *job.Intake) { in.LabelText = map[string]string{"chemistry": "gel"} },
		"bench":     func(in *job.Intake) { in.Celsius = 5 },
		"meter":     func(in *job.Intake) { in.Meter = lib.Instruments("pocket"); in.Meter.ID = "another" },
	} {
		other := in
		change(&other)
		require.NotEqual(t, digest, cloudDigest(lib, other), what)
	}
	same := in
	same.Owner, same.Machine, same.Words, same.History = "An owner", "A pump", "Dead", []string{"stored"}
	require.Equal(t, digest, cloudDigest(lib, same), "the owner's words change no machine")
	trees := *lib
	trees.Digest = "edited"
	require.NotEqual(t, digest, cloudDigest(&trees, in))
}

func TestTheFolderOfCloudsIsBounded(t *testing.T) {
	lib, in := simulatedPump(t)
	dir := cloudFiles(t.TempDir())
	for i := range mostClouds + 5 {
		require.NoError(t, os.WriteFile(dir.path(fmt.Sprint("old", i)), nil, 0o600))
	}
	_, err := makeCloud(lib, dir, in, 3, nil)
	require.NoError(t, err)
	files, err := filepath.Glob(dir.path("*"))
	require.NoError(t, err)
	require.Len(t, files, mostClouds)
	require.Contains(t, files, dir.path(cloudDigest(lib, in)), "the newest stays")
}

// The walk asks and never waits; who can wait does.
func TestCloudsAreMadeBesideTheWalk(t *testing.T) {
	lib, in := simulatedPump(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	c := newClouds(ctx, whole(lib), "", map[string]counsel.Shop{"spray-pump": {Jobs: 3}})
	changed := c.Changed()
	c.Cloud(in, nil)
	<-changed
	cloud, _ := c.Cloud(in, nil)
	require.NotNil(t, cloud)
	c.Await(ctx, in, nil)
	cloud, final := c.Cloud(in, nil)
	require.NotNil(t, cloud)
	require.True(t, final)
	require.Equal(t, 3, c.Shop("spray-pump").Jobs)
	require.Zero(t, c.Shop("another").Jobs)

	odd := in
	odd.System = "no such system"
	c.Await(ctx, odd, nil)
	cloud, final = c.Cloud(odd, nil)
	require.Nil(t, cloud)
	require.True(t, final, "it can't be made, and nobody waits for it for ever")
}

// Work that the job has done is simulated when it is asked for, and kept.
func TestACloudLearnsTheWorkOfAJob(t *testing.T) {
	lib, in := simulatedPump(t)
	dir := cloudFiles(t.TempDir())
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	c := newClouds(ctx, whole(lib), dir, nil)
	c.Await(ctx, in, nil)
	cloud, final := c.Cloud(in, []string{"recharge"})
	require.NotNil(t, cloud, "what there is can be used meanwhile")
	require.False(t, final)
	c.Await(ctx, in, []string{"recharge"})
	cloud, final = c.Cloud(in, []string{"recharge"})
	require.True(t, final)
	require.True(t, cloud.Knows("recharge"))
	kept, err := makeCloud(lib, dir, in, 1, never, "recharge")
	require.NoError(t, err, "it was kept")
	require.True(t, kept.Knows("recharge"))

	c.Await(ctx, in, []string{"no such work"})
	cloud, final = c.Cloud(in, []string{"no such work"})
	require.NotNil(t, cloud, "what there was stays")
	require.True(t, final)
}

func TestFewCloudsAreInMemory(t *testing.T) {
	lib, in := simulatedPump(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	c := newClouds(ctx, whole(lib), "", nil)
	for warm := range mostMade + 2 {
		in.Celsius = float64(10 + warm)
		c.Await(ctx, in, nil)
	}
	c.lock.Lock()
	require.Len(t, c.made, mostMade)
	c.lock.Unlock()
	in.Celsius = 10
	c.Await(ctx, in, nil)
	cloud, _ := c.Cloud(in, nil)
	require.NotNil(t, cloud, "it is made again when it is wanted again")
}

// Two jobs were proved: both had a weak battery, one an open switch besides. What was
// found after the repair, in an open job, and in one that was not proved counts for
// nothing.
func TestOwnJobsAreThoseThatWereProved(t *testing.T) {
	_, in := simulatedPump(t)
	ctx := context.Background()
	store := new(job.Memory)
	add := func(outcome job.Outcome, found ...string) {
		id, err := store.Create(ctx, []job.Event{{Kind: job.KindIntake, Intake: &in}})
		require.NoError(t, err)
		none := []string{}
		events := []job.Event{
			{Kind: job.KindSeen, Seen: &job.Seen{Test: "turns", Choice: "stands"}, Shown: &found},
			{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new"}}},
			{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new"}, Shown: &none},
		}
		if outcome != "" {
			events = append(events, job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: outcome}})
		}
		_, err = store.Append(ctx, id, 1, events)
		require.NoError(t, err)
	}
	add(job.Proved, "bat.weak")
	add(job.Proved, "sw.open", "bat.weak")
	add(job.NotProved, "mot.open")
	add("", "mot.open")
	own, err := ownJobs(ctx, store)
	require.NoError(t, err)
	require.Equal(t, map[string]counsel.Shop{"spray-pump": {
		Jobs: 2, Found: map[string]int{"bat.weak": 2, "sw.open": 1},
		Last: map[string][][]string{in.Complaint: {{"bat.weak", "sw.open"}, {"bat.weak"}}},
	}}, own)
}
