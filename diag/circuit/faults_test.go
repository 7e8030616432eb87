package circuit_test

// away is a contact or wire that has gone, in ohm.
const away = 1e9

// faults of the reference machine, by the names that the tables use.
var faults = []struct {
	name string
	set  func(*machine)
}{
	{"ok", func(*machine) {}},
	{"low", func(m *machine) { m.battery(250, .25, 20) }},
	{"flat", func(m *machine) { m.battery(250, 0, 20) }},
	{"cell", func(m *machine) { m.EMF -= 2.1 }},
	{"sul1", func(m *machine) { m.Internal += .05 }},
	{"sul2", func(m *machine) { m.Internal += .40 }},
	{"pos1", func(m *machine) { m.CablePlus += .05 }},
	{"pos2", func(m *machine) { m.CablePlus += .20 }},
	{"gnd1", func(m *machine) { m.CableMinus += .05 }},
	{"gnd2", func(m *machine) { m.CableMinus += .20 }},
	{"gnd3", func(m *machine) { m.CableMinus += 1 }},
	{"gndo", func(m *machine) { m.CableMinus = away }},
	{"bond", func(m *machine) { m.Bond += .20 }},
	{"fuse", func(m *machine) { m.Fuse.Blown = true }},
	{"fusec", func(m *machine) { m.Fuse.Ohms += 1 }},
	{"key", func(m *machine) { m.ohms["key start"] = away }},
	{"brk", func(m *machine) { m.Brake = false }},
	{"pto", func(m *machine) { m.PTO = false }},
	{"ptoc", func(m *machine) { m.ohms["pto"] = 1.5 }},
	{"coilo", func(m *machine) { m.Coil.CoilOhms = away }},
	// A coil acts by ampere-turns: with a quarter of the turns it wants four times
	// the amps.
	{"coils", func(m *machine) { m.Coil.CoilOhms = .5; m.Coil.PullIn *= 4; m.Coil.DropOut *= 4 }},
	{"solg", func(m *machine) { m.ohms["SG-CH"] = away }},
	{"conb", func(m *machine) { m.Contact = .10 }},
	{"cono", func(m *machine) { m.Coil.Stuck = true }},
	{"strO", func(m *machine) { m.Motor.Ohms = away }},
	{"strD", func(m *machine) { m.Motor.Drag += .8 }},
	// The turns that are shorted brake as a generator does.
	{"strS", func(m *machine) { m.Motor.Ohms *= .75; m.Motor.Ke *= .85; m.Motor.Viscous += 1.2e-3 }},
	{"seiz", func(m *machine) { m.Motor.Locked = true }},
	{"dsh", func(m *machine) { m.Shorted = true }},
	{"dsh2", func(m *machine) { m.Shorted, m.Winding = true, .30 }},
}
