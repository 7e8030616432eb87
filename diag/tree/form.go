package tree

import (
	"reflect"

	"benchlead/diag/shape"
)

// form names each shape in messages.
var form = shape.NewForm(map[reflect.Type]string{
	reflect.TypeFor[systemShape]():    "a system",
	reflect.TypeFor[sharedShape]():    "a shared file",
	reflect.TypeFor[complaintShape](): "a complaint",
	reflect.TypeFor[labelShape]():     "a label field",
	reflect.TypeFor[pointShape]():     "a point",
	reflect.TypeFor[stateShape]():     "a state",
	reflect.TypeFor[setupShape]():     "a setup",
	reflect.TypeFor[workShape]():      "a piece of work",
	reflect.TypeFor[testShape]():      "a test",
	reflect.TypeFor[leadsShape]():     `"leads"`,
	reflect.TypeFor[spanShape]():      "a range",
	reflect.TypeFor[bandShape]():      "a band",
	reflect.TypeFor[choiceShape]():    "a choice",
	reflect.TypeFor[faultShape]():     "a fault",
	reflect.TypeFor[sketchShape]():    "a sketch",
	reflect.TypeFor[treeShape]():      "a tree",
	reflect.TypeFor[stepShape]():      "a step",
	reflect.TypeFor[stockShape]():     "a file of lists",
	reflect.TypeFor[repairShape]():    "a repair",
	reflect.TypeFor[useShape]():       "a part of a repair",
	reflect.TypeFor[ruleShape]():      "a rule",
	reflect.TypeFor[cautionShape]():   "a caution",
	reflect.TypeFor[safeShape]():      "a make-safe item",
	reflect.TypeFor[settingShape]():   "a setting",
	reflect.TypeFor[partShape]():      "a part",
	reflect.TypeFor[meterShape]():     "a meter",
	reflect.TypeFor[scaleShape]():     "a scale",
	reflect.TypeFor[sourceShape]():    "a source",
	reflect.TypeFor[pair]():           "",
	reflect.TypeFor[proofShape]():     "",
	reflect.TypeFor[thenShape]():      "",
}, firstKeys)
