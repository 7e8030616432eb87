package ui

import (
	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/suspect"
)

// Suspects gives what the suspects of a job are weighed with. It never waits: clouds
// are made beside the walk.
type Suspects interface {
	// Cloud is that of a machine as it was taken in, which should know these stages of
	// work; nil while it is not ready, and for a system without a circuit. final says that
	// nothing better will come: with nil, that it can't be made.
	Cloud(in job.Intake, stages []string) (cloud *suspect.Cloud, final bool)
	// Shop is what the shop's own proved jobs on a system have shown; empty when they
	// don't count.
	Shop(system string) counsel.Shop
	// Changed is closed when the next cloud is ready.
	Changed() <-chan struct{}
}

// weighed is the counsel last given, and what it was given on.
type weighed struct {
	last    int64
	cloud   *suspect.Cloud
	counsel counsel.Counsel
}

// cloud is that of the job as it stands.
func (s *Session) cloud() (cloud *suspect.Cloud, final bool) {
	return s.bench.Suspects.Cloud(*s.facts.Intake, counsel.Stages(s.pos.System, s.facts))
}

// expectSuspects has the clouds begun as soon as there is a machine to weigh.
func (s *Session) expectSuspects() {
	if s.bench.Suspects != nil && s.facts.Intake != nil && s.facts.Closed == nil && s.facts.MendedAt == 0 {
		s.cloud()
	}
}

// Counsel is what the suspects say of the job; empty while they are not ready.
func (s *Session) Counsel() counsel.Counsel {
	if s.bench.Suspects == nil || s.facts.Intake == nil {
		return counsel.Counsel{}
	}
	cloud, _ := s.cloud()
	if s.weighed.cloud != cloud || s.weighed.last != s.facts.Last {
		s.weighed = weighed{s.facts.Last, cloud, counsel.Of(s.bench.Library, s.facts, s.pos, cloud, s.bench.Suspects.Shop(s.facts.Intake.System))}
	}
	return s.weighed.counsel
}
