package rerun

import (
	"slices"
	"strings"

	"benchlead/diag/prove"
	"benchlead/diag/tree"
)

// stock makes the machines of one system and remembers what they answered. A
// machine that has answered everything before is not built at all.
type stock struct {
	sys     *tree.System
	maker   prove.Maker
	records map[string]map[int]*record // by faults, by number
	live    map[*record]prove.Machine  // that nobody has worked on
	order   []*record                  // of live, the oldest first
}

func newStock(sys *tree.System, maker prove.Maker) *stock {
	return &stock{sys: sys, maker: maker, records: map[string]map[int]*record{}, live: map[*record]prove.Machine{}}
}

// mostLive bounds the memory for machines that were built.
const mostLive = 200

// record is what is known of one machine as it came in, or after some work.
type record struct {
	complaint *string
	present   []string
	looked    bool // present is known
	answers   map[asked]prove.Answer
	after     map[string]*record // by what is done to it next
}

// asked is one taking of a test.
type asked struct {
	test  string
	again int
}

// Build gives a machine of the stock.
func (s *stock) Build(d prove.Draw) (prove.Machine, error) {
	load := ""
	for _, fault := range d.Faults {
		load += fault + "\n"
	}
	byNumber := s.records[load]
	if byNumber == nil {
		byNumber = map[int]*record{}
		s.records[load] = byNumber
	}
	r := byNumber[d.Number]
	if r == nil {
		r = &record{}
		byNumber[d.Number] = r
	}
	return &machine{stock: s, draw: d, first: r, record: r}, nil
}

// fresh is a machine that was built and that nobody has worked on.
func (s *stock) fresh(r *record, d prove.Draw) (prove.Machine, error) {
	if m := s.live[r]; m != nil {
		return m, nil
	}
	m, err := s.maker.Build(d)
	if err != nil {
		return nil, err
	}
	if len(s.order) >= mostLive {
		delete(s.live, s.order[0])
		s.order = s.order[1:]
	}
	s.live[r], s.order = m, append(s.order, r)
	return m, nil
}

// machine is one of the stock on the bench.
type machine struct {
	stock  *stock
	draw   prove.Draw
	first  *record // as it came in
	record *record // as it is
	deeds  []deed
	worked prove.Machine // built, with the deeds done; nil until it is needed
}

// deed is what is done to a machine: a piece of work, or faults put right.
type deed struct {
	work  string
	mends []string
}

func (d deed) name() string {
	if d.work != "" {
		return d.work
	}
	return "mend " + strings.Join(d.mends, " ")
}

func (d deed) do(m prove.Machine) error {
	if d.work != "" {
		return m.Do(d.work)
	}
	return m.Mend(d.mends...)
}

// built is the machine itself, for what isn't known of it yet.
func (m *machine) built() (prove.Machine, error) {
	if len(m.deeds) == 0 {
		return m.stock.fresh(m.first, m.draw)
	}
	if m.worked != nil {
		return m.worked, nil
	}
	built, err := m.stock.maker.Build(m.draw)
	if err != nil {
		return nil, err
	}
	for _, d := range m.deeds {
		if err := d.do(built); err != nil {
			return nil, err
		}
	}
	m.worked = built
	return built, nil
}

// Complaint is what it came in with.
func (m *machine) Complaint() (string, error) {
	if m.record.complaint == nil {
		built, err := m.built()
		if err != nil {
			return "", err
		}
		c, err := built.Complaint()
		if err != nil {
			return "", err
		}
		m.record.complaint = &c
	}
	return *m.record.complaint, nil
}

// Take answers a test, whatever the bands of the library that asks.
func (m *machine) Take(test *tree.Test, with prove.Hand) (prove.Answer, error) {
	taking := asked{test.ID, with.Again}
	if a, ok := m.record.answers[taking]; ok {
		return a, nil
	}
	built, err := m.built()
	if err != nil {
		return prove.Answer{}, err
	}
	a, err := built.Take(m.stock.sys.Test(test.ID), with)
	if err != nil {
		return a, err
	}
	if m.record.answers == nil {
		m.record.answers = map[asked]prove.Answer{}
	}
	m.record.answers[taking] = a
	return a, nil
}

// Do does a piece of work to it.
func (m *machine) Do(work string) error { return m.does(deed{work: work}) }

// Mend puts faults right.
func (m *machine) Mend(faults ...string) error {
	return m.does(deed{mends: slices.Clone(faults)})
}

func (m *machine) does(d deed) error {
	name := d.name()
	if m.record.after[name] == nil {
		if m.record.after == nil {
			m.record.after = map[string]*record{}
		}
		m.record.after[name] = &record{}
	}
	m.record = m.record.after[name]
	m.deeds = append(m.deeds, d)
	if m.worked != nil {
		return d.do(m.worked)
	}
	return nil
}

// Present are the faults that are there now.
func (m *machine) Present() ([]string, error) {
	if !m.record.looked {
		built, err := m.built()
		if err != nil {
			return nil, err
		}
		if m.record.present, err = built.Present(); err != nil {
			return nil, err
		}
		m.record.looked = true
	}
	return m.record.present, nil
}

// Ways and Drawn are for traces, which nobody asks of these machines.
func (m *machine) Ways() []string { return nil }

// Drawn is empty, as Ways.
func (m *machine) Drawn() []prove.Drawn { return nil }
