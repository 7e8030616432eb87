package virtual

// Done gives the machine's memory back to its Maker, whose next machines are made in
// it. Whoever makes machine after machine and keeps only what they showed calls it
// once for each, as the last thing: so clouds of suspects are made in less time.
// What the machine has answered stays good; it must not be asked any more. Nobody
// has to call it.
func (m *Machine) Done() {
	for _, i := range m.islands {
		if i.solution != nil {
			m.maker.room.Reuse(i.solution)
		}
		if i.circuit != nil {
			m.maker.room.ReuseCircuit(i.circuit)
		}
	}
	m.maker.rows = append(m.maker.rows, m.rows...)
	*m = Machine{maker: m.maker, ways: m.ways}
}

// newRow is room for a quantity of every slot, all of them 0.
func (m *Machine) newRow() []float64 {
	var row []float64
	if last := len(m.maker.rows) - 1; last >= 0 {
		row = m.maker.rows[last]
		m.maker.rows = m.maker.rows[:last]
		clear(row)
	} else {
		row = make([]float64, len(m.maker.slots))
	}
	m.rows = append(m.rows, row)
	return row
}
