package job_test

import (
	"testing"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

func TestMemoryIsAStore(t *testing.T) {
	jobtest.Suite(t, func(*testing.T) job.Store { return new(job.Memory) })
}
