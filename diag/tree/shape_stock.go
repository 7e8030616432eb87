package tree

import "benchlead/diag/source"

// stockShape is a file of lists. Several files may carry the same list.
type stockShape struct {
	Repairs  []repairShape  `yaml:"repairs"`
	Cautions []cautionShape `yaml:"cautions"`
	Safe     []safeShape    `yaml:"safe"`
	Parts    []partShape    `yaml:"parts"`
	Meters   []meterShape   `yaml:"meters"`
	Sources  []sourceShape  `yaml:"sources"`
	Troubles []troubleShape `yaml:"troubles"`
	Services []serviceShape `yaml:"services"`
	Words    []termShape    `yaml:"words"`
}

type troubleShape struct {
	Trouble word  `yaml:"trouble" is:"required"`
	Title   word  `yaml:"title" is:"required"`
	Also    prose `yaml:"also"`
}

// termShape is a word of the trade that is explained.
type termShape struct {
	Word  word   `yaml:"word" is:"required"`
	Also  []word `yaml:"also"`
	Means prose  `yaml:"means" is:"required"`
	Basis word   `yaml:"basis" is:"required"`
}

type repairShape struct {
	Repair    word            `yaml:"repair" is:"required"`
	Title     word            `yaml:"title" is:"required"`
	Kind      word            `yaml:"kind"`
	Systems   []word          `yaml:"systems"`
	Include   word            `yaml:"systems with"`
	Clears    []word          `yaml:"clears" is:"required"`
	Parts     []useShape      `yaml:"parts"`
	Minutes   number          `yaml:"minutes" is:"required"`
	Tools     []word          `yaml:"tools"`
	Needs     []pair          `yaml:"needs" is:"keyed"`
	Cautions  []word          `yaml:"cautions"`
	First     []prose         `yaml:"first"`
	Steps     []prose         `yaml:"steps" is:"required"`
	Off       []prose         `yaml:"off"`
	Kept      []prose         `yaml:"kept"`
	Bin       []word          `yaml:"bin"`
	Scrap     []prose         `yaml:"scrap"`
	Fasteners []fastenerShape `yaml:"fasteners"`
	Torque    []torqueShape   `yaml:"torque"`
	Before    []prose         `yaml:"before"`
	Law       []ruleShape     `yaml:"law"`
	Stales    []word          `yaml:"stales"`
	Checks    []word          `yaml:"checks"`
}

type useShape struct {
	Part word   `yaml:"part" is:"required plain"`
	Qty  number `yaml:"qty"`
}

type fastenerShape struct {
	What prose `yaml:"what" is:"required plain"`
	New  yesNo `yaml:"new"`
}

type torqueShape struct {
	What  prose  `yaml:"what" is:"required"`
	Low   number `yaml:"low" is:"required"`
	High  number `yaml:"high" is:"required"`
	Basis word   `yaml:"basis" is:"required"`
}

type serviceShape struct {
	Service  word       `yaml:"service" is:"required"`
	Title    word       `yaml:"title" is:"required"`
	Tell     prose      `yaml:"tell" is:"required"`
	Minutes  number     `yaml:"minutes" is:"required"`
	Needs    []pair     `yaml:"needs" is:"keyed"`
	Leaves   []pair     `yaml:"leaves" is:"keyed"`
	Cautions []word     `yaml:"cautions"`
	Parts    []useShape `yaml:"parts"`
}

type ruleShape struct {
	Cite word    `yaml:"cite" is:"required"`
	Says prose   `yaml:"says" is:"required"`
	Ways []prose `yaml:"ways" is:"required"`
}

type cautionShape struct {
	Caution word  `yaml:"caution" is:"required"`
	Title   word  `yaml:"title" is:"required"`
	Tell    prose `yaml:"tell" is:"required"`
	Basis   word  `yaml:"basis" is:"required"`
	Stops   yesNo `yaml:"stops"`
	Likely  yesNo `yaml:"likely"`
}

type safeShape struct {
	Item     word           `yaml:"item" is:"required"`
	Title    word           `yaml:"title" is:"required"`
	Settings []settingShape `yaml:"settings" is:"required"`
}

type settingShape struct {
	Setting word  `yaml:"setting" is:"required"`
	Tell    prose `yaml:"tell" is:"required"`
	Back    yesNo `yaml:"back"`
	Unfit   yesNo `yaml:"unfit"`
	After   word  `yaml:"after"`
}

type partShape struct {
	Part     word           `yaml:"part" is:"required"`
	Title    word           `yaml:"title" is:"required"`
	NoBin    prose          `yaml:"no bin"`
	Refund   yesNo          `yaml:"refund"`
	Life     *lifeShape     `yaml:"life"`
	BinNeeds []binNeedShape `yaml:"bin needs"`
	With     []word         `yaml:"goes with"`
}

// binNeedShape is what a used piece has to show: words alone, or words with the figure
// that what is read must reach.
type binNeedShape struct {
	Says  prose  `yaml:"says" is:"required plain"`
	Unit  word   `yaml:"unit"`
	Least number `yaml:"least"`
	Most  number `yaml:"most"`
}

type lifeShape struct {
	Place     source.Place
	Seasons   number `yaml:"seasons" is:"required"`
	Judgement prose  `yaml:"judgement" is:"required"`
}

type meterShape struct {
	Meter   word         `yaml:"meter" is:"required"`
	Title   word         `yaml:"title" is:"required"`
	TrueRMS yesNo        `yaml:"true rms"`
	Scales  []scaleShape `yaml:"scales" is:"required"`
}

type scaleShape struct {
	Measure word   `yaml:"measure" is:"required"`
	Full    number `yaml:"full" is:"required"`
	Step    number `yaml:"step" is:"required"`
	Percent number `yaml:"percent" is:"required"`
	Counts  number `yaml:"counts" is:"required"`
	Input   number `yaml:"input"`
}

type sourceShape struct {
	Source word  `yaml:"source" is:"required"`
	Cite   prose `yaml:"cite" is:"required"`
}
