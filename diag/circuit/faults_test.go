package circuit_test

// faults of the reference machine, by the names that the tables use.
var faults = []struct {
	name string
	set  func(*keyStart)
}{
	{"ok", func(*keyStart) {}},
	{"low", func(m *keyStart) { m.battery(250, .25, 20) }},
	{"flat", func(m *keyStart) { m.battery(250, 0, 20) }},
	{"cell", func(m *keyStart) { m.emf -= 2.1 }},
	{"sul1", func(m *keyStart) { m.inner += .05 }},
	{"sul2", func(m *keyStart) { m.inner += .40 }},
	{"pos1", func(m *keyStart) { m.cabP += .05 }},
	{"pos2", func(m *keyStart) { m.cabP += .20 }},
	{"gnd1", func(m *keyStart) { m.cabN += .05 }},
	{"gnd2", func(m *keyStart) { m.cabN += .20 }},
	{"gnd3", func(m *keyStart) { m.cabN += 1 }},
	{"gndo", func(m *keyStart) { m.cabN = 1e9 }},
	{"bond", func(m *keyStart) { m.bond += .20 }},
	{"fuse", func(m *keyStart) { m.blown = true }},
	{"fusec", func(m *keyStart) { m.fuse += 1 }},
	{"key", func(m *keyStart) { m.key = 1e9 }},
	{"brk", func(m *keyStart) { m.brake = 1e9 }},
	{"pto", func(m *keyStart) { m.pto = 1e9 }},
	{"ptoc", func(m *keyStart) { m.pto = 1.5 }},
	{"coilo", func(m *keyStart) { m.coil = 1e9 }},
	{"coils", func(m *keyStart) { m.coil, m.turns = .5, .25 }},
	{"solg", func(m *keyStart) { m.solG = 1e9 }},
	{"conb", func(m *keyStart) { m.contact = .10 }},
	{"cono", func(m *keyStart) { m.stuck = true }},
	{"strO", func(m *keyStart) { m.ra = 1e9 }},
	{"strD", func(m *keyStart) { m.drag = .8 }},
	{"strS", func(m *keyStart) { m.ra *= .75; m.ke *= .85; m.bm += 1.2e-3 }},
	{"seiz", func(m *keyStart) { m.locked = true }},
	{"dsh", func(m *keyStart) { m.diodeShort = true }},
	{"dsh2", func(m *keyStart) { m.diodeShort, m.stator = true, .30 }},
}
