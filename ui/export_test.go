package ui

import "benchlead/diag/counsel"

// Advise puts a counsel in the place of what the suspects say of the job as it stands.
func (s *Session) Advise(c counsel.Counsel) {
	cloud, _ := s.cloud()
	s.weighed = weighed{s.facts.Last, cloud, c}
}

// InTestUnit is what a bare number means on a test's page.
var InTestUnit = inTestUnit
