package app

import (
	"context"
	"runtime"
	"slices"
	"strings"
	"sync"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// clouds makes the clouds of the jobs that are asked for, one after the other beside
// the walk, and keeps them in files.
type clouds struct {
	of    func(system string) *tree.Library // the trees of a system
	files cloudFiles
	shop  map[string]counsel.Shop

	lock    sync.Mutex
	made    []made          // the last used last
	asked   map[string]bool // by name of what is wanted
	done    map[string]bool // was made, or can't be
	wait    chan wanted
	changed chan struct{}
}

// made is a cloud, or that there can be none.
type made struct {
	digest string
	cloud  *suspect.Cloud
	final  bool
}

// wanted is a machine as it was taken in, with the stages of work that its cloud should
// know.
type wanted struct {
	in     job.Intake
	digest string
	stages []string
}

// mostMade is how many clouds are in memory; the others are read again.
const mostMade = 3

// mostCores is on how many cores a cloud is made at most: each has memory of its own.
func mostCores() int {
	const most = 4
	return min(runtime.GOMAXPROCS(0), most)
}

// newClouds begins with nothing made. Work goes on until ctx ends.
func newClouds(ctx context.Context, of func(system string) *tree.Library, files cloudFiles, shop map[string]counsel.Shop) *clouds {
	const waiting = 64 // jobs that are opened while one cloud is made
	c := &clouds{of: of, files: files, shop: shop, asked: map[string]bool{}, done: map[string]bool{}, wait: make(chan wanted, waiting), changed: make(chan struct{})}
	go c.work(ctx)
	return c
}

// Cloud is what there is by now; what it lacks is begun the first time that it is asked
// for.
func (c *clouds) Cloud(in job.Intake, stages []string) (cloud *suspect.Cloud, final bool) {
	want := wanted{in, cloudDigest(c.of(in.System), in), stages}
	c.lock.Lock()
	defer c.lock.Unlock()
	is := c.use(want.digest)
	name := want.name()
	if is.final && (is.cloud == nil || knowsAll(is.cloud, stages) || c.done[name]) {
		return is.cloud, true
	}
	if !c.asked[name] {
		select {
		case c.wait <- want:
			c.asked[name] = true
		default: // asked again when there is room
		}
	}
	return is.cloud, false
}

// name is what is asked for, in one word.
func (w wanted) name() string { return w.digest + " " + strings.Join(w.stages, " ") }

func knowsAll(cloud *suspect.Cloud, stages []string) bool {
	return !slices.ContainsFunc(stages, func(s string) bool { return !cloud.Knows(s) })
}

// use finds a cloud, and notes that it was used.
func (c *clouds) use(digest string) made {
	at := slices.IndexFunc(c.made, func(m made) bool { return m.digest == digest })
	if at < 0 {
		return made{}
	}
	is := c.made[at]
	c.made = append(slices.Delete(c.made, at, at+1), is)
	return is
}

// Await is Cloud for whoever can wait until it is final.
func (c *clouds) Await(ctx context.Context, in job.Intake, stages []string) {
	for {
		changed := c.Changed()
		if _, final := c.Cloud(in, stages); final {
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
	maker := cloudMaker{of: c.of, files: c.files, cores: max(1, mostCores()/2), stop: func() bool { return ctx.Err() != nil }}
	for {
		select {
		case <-ctx.Done():
			return
		case want := <-c.wait:
			// What can't be made is left out: the walk needs no suspects.
			cloud, _ := maker.make(want, c.have(want), func(first *suspect.Cloud) { c.put(want, first, false) })
			c.put(want, cloud, true)
		}
	}
}

// have is what is in memory of what is wanted; nil for none.
func (c *clouds) have(want wanted) *suspect.Cloud {
	c.lock.Lock()
	defer c.lock.Unlock()
	if is := c.use(want.digest); is.final {
		return is.cloud
	}
	return nil
}

func (c *clouds) put(want wanted, cloud *suspect.Cloud, final bool) {
	c.lock.Lock()
	defer c.lock.Unlock()
	is := c.use(want.digest)
	if is.digest != "" {
		c.made = c.made[:len(c.made)-1]
	}
	if cloud == nil {
		cloud = is.cloud // a stage that can't be made leaves what there was
	}
	c.made = append(c.made, made{want.digest, cloud, final})
	c.done[want.name()] = final
	if len(c.made) > mostMade {
		clear(c.asked) // it may be wanted again
		clear(c.done)
		c.made = slices.Delete(c.made, 0, len(c.made)-mostMade)
	}
	close(c.changed)
	c.changed = make(chan struct{})
}
