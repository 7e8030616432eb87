package app

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Clouds are made from one seed, so that the same machine has the same suspects
// everywhere, with so many machines of each hypothesis.
const (
	cloudSeed     = 1
	cloudMachines = 100
)

// clouds makes the clouds of the jobs that are asked for, one after the other beside
// the walk, and keeps them in files.
type clouds struct {
	lib   *tree.Library
	files cloudFiles
	shop  map[string]counsel.Shop

	lock    sync.Mutex
	made    map[string]*suspect.Cloud // by digest
	final   map[string]bool           // nothing better will come; without a cloud: it can't be made
	asked   map[string]bool
	wait    chan job.Intake
	changed chan struct{}
}

// mostCores is on how many cores a cloud is made at most: each has memory of its own.
func mostCores() int {
	const most = 4
	return min(runtime.GOMAXPROCS(0), most)
}

// newClouds begins with nothing made. Work goes on until ctx ends.
func newClouds(ctx context.Context, lib *tree.Library, files cloudFiles, shop map[string]counsel.Shop) *clouds {
	const waiting = 64 // jobs that are opened while one cloud is made
	c := &clouds{
		lib: lib, files: files, shop: shop,
		made: map[string]*suspect.Cloud{}, final: map[string]bool{}, asked: map[string]bool{},
		wait: make(chan job.Intake, waiting), changed: make(chan struct{}),
	}
	go c.work(ctx)
	return c
}

// Cloud is what there is by now; the first time it is asked for it is begun.
func (c *clouds) Cloud(in job.Intake) (cloud *suspect.Cloud, final bool) {
	digest := c.digest(in)
	c.lock.Lock()
	defer c.lock.Unlock()
	if !c.asked[digest] {
		select {
		case c.wait <- in:
			c.asked[digest] = true
		default: // asked again when there is room
		}
	}
	return c.made[digest], c.final[digest]
}

// Await is Cloud for whoever can wait until it is final.
func (c *clouds) Await(ctx context.Context, in job.Intake) {
	for {
		changed := c.Changed()
		if _, final := c.Cloud(in); final {
			return
		}
		select {
		case <-ctx.Done():
			return
		case <-changed:
		}
	}
}

// Shop is what the shop's own proved jobs on a system have shown.
func (c *clouds) Shop(system string) counsel.Shop { return c.shop[system] }

// Changed is closed when the next cloud is ready.
func (c *clouds) Changed() <-chan struct{} {
	c.lock.Lock()
	defer c.lock.Unlock()
	return c.changed
}

func (c *clouds) work(ctx context.Context) {
	cores := max(1, mostCores()/2) // the walk goes on beside
	for {
		select {
		case <-ctx.Done():
			return
		case in := <-c.wait:
			// What can't be made is left out: the walk needs no suspects.
			cloud, _ := makeCloud(c.lib, c.files, in, c.digest(in), cores, func() bool { return ctx.Err() != nil }, func(first *suspect.Cloud) { c.put(in, first, false) })
			c.put(in, cloud, true)
		}
	}
}

func (c *clouds) put(in job.Intake, cloud *suspect.Cloud, final bool) {
	digest := c.digest(in)
	c.lock.Lock()
	defer c.lock.Unlock()
	if cloud != nil {
		c.made[digest] = cloud
	}
	c.final[digest] = final
	close(c.changed)
	c.changed = make(chan struct{})
}

func (c *clouds) digest(in job.Intake) string { return cloudDigest(c.lib, in) }

// makeCloud makes the cloud of a machine as it was taken in, on so many cores, or reads
// the one that was kept. stop says when nobody waits any more, and first is given what
// can be used before the whole is finished; either may be nil.
func makeCloud(lib *tree.Library, files cloudFiles, in job.Intake, digest string, cores int, stop func() bool, first func(*suspect.Cloud)) (*suspect.Cloud, error) {
	sys := lib.Systems[in.System]
	if sys == nil || sys.Circuit == nil {
		return nil, nil
	}
	if kept := files.read(digest, sys); kept != nil {
		return kept, nil
	}
	var makers []*virtual.Maker
	for range cores {
		maker, err := virtual.NewMaker(sys, virtual.Conditions{Label: in.Label, Words: in.LabelText, Celsius: in.Celsius})
		if err != nil {
			return nil, err
		}
		makers = append(makers, maker)
	}
	o := suspect.Options{Seed: cloudSeed, Machines: cloudMachines, Meter: in.Meter, Stop: stop}
	parts, err := shared(makers, func(share int) (*suspect.Part, error) {
		return suspect.BuildPart(makers[share], in.Complaint, o, share, cores)
	})
	if err != nil {
		return nil, err
	}
	cloud, err := suspect.Join(parts...)
	if err != nil {
		return nil, err
	}
	if first != nil {
		first(cloud)
	}
	stages, err := shared(makers, func(share int) (*suspect.Extension, error) {
		return cloud.ExtendPart(makers[share], o, share, cores)
	})
	if err != nil {
		return nil, err
	}
	cloud = cloud.Extended(stages...)
	files.write(digest, cloud)
	return cloud, nil
}

// shared does a share of some work for each maker, beside each other.
func shared[Share any](makers []*virtual.Maker, work func(share int) (Share, error)) ([]Share, error) {
	out, errs := make([]Share, len(makers)), make([]error, len(makers))
	var all sync.WaitGroup
	for i := range makers {
		all.Go(func() { out[i], errs[i] = work(i) })
	}
	all.Wait()
	return out, firstOf(errs...)
}

// ownJobs is what the shop's own jobs that were closed as repaired and proved have
// shown, by system.
func ownJobs(ctx context.Context, store job.Store) (map[string]counsel.Shop, error) {
	jobs, err := store.Jobs(ctx)
	if err != nil {
		return nil, err
	}
	out := map[string]counsel.Shop{}
	for _, j := range jobs {
		if j.Open || j.Outcome != job.Proved {
			continue
		}
		events, err := store.Load(ctx, j.ID)
		if err != nil {
			return nil, fmt.Errorf("job %d: %w", j.ID, err)
		}
		shop := out[j.System]
		if shop.Found == nil {
			shop.Found = map[string]int{}
		}
		shop.Jobs++
		for _, fault := range everFound(events) {
			shop.Found[fault]++
		}
		out[j.System] = shop
	}
	return out, nil
}

// everFound are the faults that were found when the first repair was done.
func everFound(events []job.Event) []string {
	var shown []string
	for _, e := range events {
		if e.Ticked != nil {
			break
		}
		if e.Shown != nil {
			shown = *e.Shown
		}
	}
	out := slices.Clone(shown)
	slices.SortFunc(out, cmp.Compare[string])
	return slices.Compact(out)
}
