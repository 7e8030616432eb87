package app

import (
	"slices"
	"sync"

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

// cloudMaker makes clouds on so many cores. stop says when nobody waits any more; it may
// be nil.
type cloudMaker struct {
	of    func(system string) *tree.Library // the trees of a system
	files cloudFiles
	cores int
	stop  func() bool
}

// make makes the cloud of a machine as it was taken in, or goes on from the one that
// there is (have, or the one that was kept), with the stages of work that the circuit names and those that are wanted. first, if
// set, is given what can be used before the whole is finished. There is none for a system
// without a circuit.
func (k cloudMaker) make(want wanted, have *suspect.Cloud, first func(*suspect.Cloud)) (*suspect.Cloud, error) {
	sys := k.of(want.in.System).Systems[want.in.System]
	if sys == nil || sys.Circuit == nil {
		return nil, nil
	}
	cloud := have
	if cloud == nil {
		cloud = k.files.read(want.digest, sys)
	}
	lacks := lacking(cloud, sys, want.stages)
	if cloud != nil && len(lacks) == 0 {
		return cloud, nil
	}
	makers, o, err := k.makers(sys, want.in)
	if err != nil {
		return nil, err
	}
	if cloud == nil {
		parts, err := shared(makers, func(share int) (*suspect.Part, error) {
			return suspect.BuildPart(makers[share], want.in.Complaint, o, share, k.cores)
		})
		if err != nil {
			return nil, err
		}
		if cloud, err = suspect.Join(parts...); err != nil {
			return nil, err
		}
	}
	if first != nil {
		first(cloud)
	}
	if len(lacks) > 0 {
		parts, err := shared(makers, func(share int) (*suspect.Extension, error) {
			return cloud.ExtendPart(makers[share], o, share, k.cores, lacks...)
		})
		if err != nil {
			return nil, err
		}
		cloud = cloud.Extended(parts...)
	}
	k.files.write(want.digest, cloud)
	return cloud, nil
}

// makers are one for each core, with how clouds are made.
func (k cloudMaker) makers(sys *tree.System, in job.Intake) ([]*virtual.Maker, suspect.Options, error) {
	var out []*virtual.Maker
	for range k.cores {
		maker, err := virtual.NewMaker(sys, virtual.Conditions{Label: in.Label, Words: in.LabelText, Celsius: in.Celsius})
		if err != nil {
			return nil, suspect.Options{}, err
		}
		out = append(out, maker)
	}
	return out, suspect.Options{Seed: cloudSeed, Machines: cloudMachines, Meter: in.Meter, Stop: k.stop}, nil
}

// lacking are the stages that a cloud does not know yet; without one, all.
func lacking(cloud *suspect.Cloud, sys *tree.System, wanted []string) []string {
	var out []string
	for _, s := range sys.Circuit.Stages {
		out = append(out, s.ID)
	}
	for _, s := range wanted {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	if cloud == nil {
		return out
	}
	return slices.DeleteFunc(out, cloud.Knows)
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
