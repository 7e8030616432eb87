package tree

import "benchlead/diag/source"

// circuitShape is the file of a system's circuit.
type circuitShape struct {
	Circuit word   `yaml:"circuit" is:"required"`
	Include []word `yaml:"include"`
	Without []word `yaml:"without"`
	Ground  word   `yaml:"ground"`
	circuitContents
	Complaints []complainsShape `yaml:"complaints"`

	base *circuitContents // of the circuit that it is laid over; not read
}

// fragmentShape is a piece of a circuit that several circuits include.
type fragmentShape struct {
	Fragment word  `yaml:"fragment" is:"required"`
	Title    word  `yaml:"title"`
	About    prose `yaml:"about"`
	circuitContents
}

// circuitContents is what a circuit and a fragment have in common.
type circuitContents struct {
	Joints     []jointShape    `yaml:"joints"`
	Values     []valueShape    `yaml:"values"`
	Positions  []positionShape `yaml:"positions"`
	States     []stateSets     `yaml:"states"`
	Setups     []setupSets     `yaml:"setups"`
	Waves      []word          `yaml:"waves"`
	Parts      []pieceShape    `yaml:"parts"`
	Faults     []breakageShape `yaml:"faults"`
	Together   []togetherShape `yaml:"together"`
	Told       []toldShape     `yaml:"told"`
	Shows      []showShape     `yaml:"shows"`
	Reads      []readsShape    `yaml:"reads"`
	Work       []effectShape   `yaml:"work"`
	Stages     []stageShape    `yaml:"stages"`
	Unmodelled []leftOutShape  `yaml:"unmodelled"`
}

type jointShape struct {
	Joint word `yaml:"joint" is:"required"`
	Title word `yaml:"title" is:"required"`
}

type valueShape struct {
	Value word          `yaml:"value" is:"required"`
	Says  word          `yaml:"says" is:"required"`
	Usual expression    `yaml:"usual"`
	From  expression    `yaml:"from"`
	To    expression    `yaml:"to"`
	Unit  word          `yaml:"unit"`
	Words []weightShape `yaml:"words" is:"keyed"`
	Basis word          `yaml:"basis" is:"required"`
	Firm  yesNo         `yaml:"firm"`
}

type weightShape struct {
	Word   word   `is:"key"`
	Weight number `is:"plain required"`
}

type positionShape struct {
	Position word   `yaml:"position" is:"required"`
	Settings []word `yaml:"settings" is:"required"`
}

type stateSets struct {
	State word   `yaml:"state" is:"required"`
	Set   []pair `yaml:"set" is:"keyed"`
}

type setupSets struct {
	Setup word   `yaml:"setup" is:"required"`
	Set   []pair `yaml:"set" is:"keyed"`
}

// pieceShape is a part of the circuit; which quantities it may have, its kind
// says.
type pieceShape struct {
	Part  word          `yaml:"part" is:"required"`
	Is    word          `yaml:"is" is:"required"`
	From  word          `yaml:"from" is:"required"`
	To    word          `yaml:"to" is:"required"`
	Coil  *betweenShape `yaml:"coil"`
	Sense word          `yaml:"sense"`

	Volts      expression `yaml:"volts"`
	Ohms       expression `yaml:"ohms"`
	Amps       expression `yaml:"amps"`
	Leak       expression `yaml:"leak"`
	CoilOhms   expression `yaml:"coil ohms"`
	PullsIn    expression `yaml:"pulls in"`
	DropsOut   expression `yaml:"drops out"`
	Ke         expression `yaml:"ke"`
	Brush      expression `yaml:"brush"`
	Drag       expression `yaml:"drag"`
	Viscous    expression `yaml:"viscous"`
	Watts      expression `yaml:"watts"`
	Wakes      expression `yaml:"wakes"`
	Hertz      expression `yaml:"hertz"`
	Henries    expression `yaml:"henries"`
	Farads     expression `yaml:"farads"`
	MostAmps   expression `yaml:"most amps"`
	LeastVolts expression `yaml:"least volts"`
	Gauge      expression `yaml:"gauge"`
	Metres     expression `yaml:"metres"`
	Ends       expression `yaml:"ends"`

	Closed  expression `yaml:"closed"`
	Blown   expression `yaml:"blown"`
	Welded  expression `yaml:"welded"`
	Stuck   expression `yaml:"stuck"`
	Locked  expression `yaml:"locked"`
	Shorted expression `yaml:"shorted"`
	Shut    expression `yaml:"shut"`

	When   expression `yaml:"when"`
	Spread number     `yaml:"spread"`
	Firm   yesNo      `yaml:"firm"`
	Basis  word       `yaml:"basis" is:"required"`
}

type betweenShape struct {
	Place source.Place
	From  word `yaml:"from" is:"required"`
	To    word `yaml:"to" is:"required"`
}

type breakageShape struct {
	Fault  word            `yaml:"fault" is:"required"`
	Common number          `yaml:"common" is:"required"`
	Ways   []wayShape      `yaml:"ways" is:"required"`
	Holds  *conditionShape `yaml:"holds"`
}

type togetherShape struct {
	Faults []word `yaml:"faults" is:"required"`
	Common number `yaml:"common" is:"required"`
	Charge yesNo  `yaml:"charge"`
	Why    prose  `yaml:"why" is:"required"`
}

type toldShape struct {
	Told  word          `yaml:"told" is:"required"`
	Times []weightShape `yaml:"times" is:"keyed required"`
	Basis word          `yaml:"basis" is:"required"`
}

type wayShape struct {
	Way      word           `yaml:"way" is:"required"`
	Share    number         `yaml:"share"`
	Severity *severityShape `yaml:"severity"`
	Set      []changeShape  `yaml:"set" is:"keyed required"`
}

type severityShape struct {
	Place source.Place
	From  number `yaml:"from" is:"required"`
	To    number `yaml:"to" is:"required"`
	By    word   `yaml:"by"`
}

type changeShape struct {
	What word       `is:"key"`
	To   expression `is:"plain required"`
}

type conditionShape struct {
	Place source.Place
	When  expression `yaml:"when" is:"required"`
	State word       `yaml:"state"`
	With  []word     `yaml:"with"`
}

type showShape struct {
	Test    word         `yaml:"test" is:"required"`
	Choices []shownShape `yaml:"choices" is:"required"`
}

// whenShape is one condition written beside its choice, or several under all.
type whenShape struct {
	When  expression       `yaml:"when"`
	State word             `yaml:"state"`
	With  []word           `yaml:"with"`
	All   []conditionShape `yaml:"all"`
}

type shownShape struct {
	Choice word `yaml:"choice" is:"required plain"`
	whenShape
}

type complainsShape struct {
	Complaint word `yaml:"complaint" is:"required plain"`
	whenShape
}

type readsShape struct {
	Test  word       `yaml:"test" is:"required"`
	Value expression `yaml:"value" is:"required"`
	State word       `yaml:"state"`
	With  []word     `yaml:"with"`
}

type effectShape struct {
	Work word          `yaml:"work" is:"required plain"`
	Set  []changeShape `yaml:"set" is:"keyed"`
	Move []pair        `yaml:"move" is:"keyed"`
}

type stageShape struct {
	Stage word   `yaml:"stage" is:"required"`
	Title word   `yaml:"title" is:"required"`
	Work  []word `yaml:"work" is:"required"`
	First []word `yaml:"first"`
	Why   prose  `yaml:"why" is:"required"`
}

type leftOutShape struct {
	What word  `yaml:"what" is:"required"`
	Why  prose `yaml:"why" is:"required"`
}
