package tree

import (
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// The codes of what Load reports. To them come "unknown-" and the sort of thing
// that a word should name (unknown-point, unknown-fault, unknown-basis ...), and
// the codes of packages source and formula.
const (
	// The text is not what YAML, or these files, may hold.
	CodeSyntax         = shape.CodeSyntax
	CodeEmpty          = shape.CodeEmpty
	CodeSecondDocument = shape.CodeSecondDocument
	CodeDuplicateKey   = shape.CodeDuplicateKey
	CodeAlias          = shape.CodeAlias
	CodeTag            = shape.CodeTag
	CodeWrongKind      = shape.CodeWrongKind
	CodeNothing        = shape.CodeNothing
	CodeUnknownField   = shape.CodeUnknownField
	CodeMissing        = shape.CodeMissing
	CodeFolded         = shape.CodeFolded

	// A file holds nothing that is known, or more than one thing.
	CodeUnknownThing source.Code = "unknown-thing"
	CodeTwoThings    source.Code = "two-things"

	// A word or a number can't be right.
	CodeDuplicateID source.Code = "duplicate-id"
	CodeBadID       source.Code = "bad-id"
	CodeTwice       source.Code = "named-twice"
	CodeUnknownWord source.Code = "unknown-word"
	CodeBadNumber   source.Code = "bad-number"
	CodeTooLong     source.Code = "text-too-long"
	CodeNotBoth     source.Code = "not-together"
	CodeUnused      source.Code = "never-used"

	// A system doesn't hang together.
	CodeNoTrees    source.Code = "complaint-without-trees"
	CodeRound      source.Code = "needs-itself"
	CodeStateNeeds source.Code = "state-without-needs"
	CodeHandBack   source.Code = "no-hand-back"
	CodeNeedsNone  source.Code = "service-without-needs"
	CodeSketch     source.Code = "sketch"
	CodeTestKind   source.Code = "test-kind"
	CodeWrongUnit  source.Code = "wrong-unit"
	CodeLeads      source.Code = "leads"
	CodeLiveOhms   source.Code = "ohms-under-power"
	CodeNoInput    source.Code = "no-input"
	CodeAlone      source.Code = "two-people"
	CodeHold       source.Code = "time-not-told"
	CodeLastCut    source.Code = "last-band-cut"
	CodeNoCut      source.Code = "band-without-cut"
	CodeNoBasis    source.Code = "cut-without-basis"
	CodeCutOrder   source.Code = "cuts-out-of-order"
	CodeSuchAs     source.Code = "reading-in-other-band"
	CodeSpan       source.Code = "range-upside-down"
	CodePossible   source.Code = "healthy-impossible"
	CodeCondemned  source.Code = "healthy-finds"

	// A tree doesn't lead where it should.
	CodeStepKind       source.Code = "step-kind"
	CodeNoRoute        source.Code = "no-route"
	CodeUnrouted       source.Code = "unrouted"
	CodeNoUnsure       source.Code = "no-unsure"
	CodeStrayRoute     source.Code = "no-such-outcome"
	CodeUnsureFind     source.Code = "unsure-finds"
	CodePassedBy       source.Code = "finding-passed-by"
	CodeGoesOn         source.Code = "stop-passed-by"
	CodeUnreachable    source.Code = "unreachable"
	CodeEndless        source.Code = "endless-loop"
	CodeAtMost         source.Code = "no-at-most"
	CodeRecursion      source.Code = "tree-within-itself"
	CodeNotAsked       source.Code = "evidence-not-asked"
	CodeNeverHolds     source.Code = "evidence-never-holds"
	CodeFindsAndClears source.Code = "finds-and-clears"
	CodeNotJudged      source.Code = "find-not-judged"
	CodeNeverFound     source.Code = "judged-never-found"
	CodeNeverClear     source.Code = "judged-never-cleared"
	CodeTreeSystem     source.Code = "tree-for-other-system"

	// A circuit doesn't answer for its system, or doesn't hang together.
	CodePartKind     source.Code = "part-kind"
	CodeNotInCircuit source.Code = "not-in-circuit"
	CodeNeverShown   source.Code = "choice-never-shown"
	CodeOtherwise    source.Code = "otherwise"
	CodeDeadEnd      source.Code = "dead-end"
	CodeNoGround     source.Code = "no-way-to-ground"
	CodeNoState      source.Code = "condition-without-state"

	// Faults and repairs don't meet.
	CodeUnjudged   source.Code = "fault-never-judged"
	CodeNotCleared source.Code = "fault-never-repaired"
	CodeNoChecks   source.Code = "repair-without-checks"
	CodeNoUse      source.Code = "repair-of-nothing"
	CodeNoBin      source.Code = "never-in-bin"
	CodeTorque     source.Code = "torque-without-source"
)

const firstKeys = "begin it with system:, circuit:, fragment:, shared:, tree:, repairs:, cautions:, safe:, parts:, meters:, sources:, troubles:, services: or words:"
