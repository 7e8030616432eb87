package tree

import (
	"fmt"
	"slices"
	"strings"
)

// repairs builds every repair.
func (b *builder) repairs() {
	b.repairIDs = newRegister("repair", "", "repairs")
	for _, s := range b.stockShapes {
		for _, shape := range s.Repairs {
			if b.add(b.repairIDs, shape.Repair, plainID) {
				b.lib.Repairs[shape.Repair.Text] = b.repair(shape)
			}
		}
	}
}

func (b *builder) repair(s repairShape) *Repair {
	r := &Repair{
		ID: s.Repair.Text, Title: b.title(s.Title), Kind: Mend, Place: s.Repair.Place,
		Systems: b.systemsOf(s.Repair, s.Systems, s.Include), Minutes: b.whole(s.Minutes, 0, 0),
		Tools: texts(s.Tools), Needs: b.needs(s.Needs), Cautions: b.referAll(b.cautions, s.Cautions),
		Steps: b.tellAll(slices.Concat(s.First, s.Steps)), First: len(s.First), Off: b.tellAll(s.Off), Kept: b.tellAll(s.Kept), Before: b.tellAll(s.Before),
		Bin: b.binned(s.Bin), Parts: b.uses(s.Parts), Law: b.law(s.Law),
		Scrap: b.tellAll(s.Scrap), Fasteners: b.fasteners(s.Fasteners), Torque: b.torques(s.Torque),
	}
	if b.only(s.Kind, "a kind of repair", []string{string(Mend), string(Conversion)}) {
		r.Kind = RepairKind(s.Kind.Text)
	}
	var systems []*systemNotes
	for _, id := range r.Systems {
		systems = append(systems, b.notes[id])
	}
	r.Clears = b.inAny(systems, s.Clears, faultsOf)
	r.Checks = b.inAny(systems, s.Checks, testsOf)
	r.Stales = slices.Clone(r.Checks)
	for _, id := range b.inAny(systems, s.Stales, testsOf) {
		if !slices.Contains(r.Stales, id) {
			r.Stales = append(r.Stales, id)
		}
	}
	b.repairFits(s, systems)
	b.linesDiffer(s)
	return r
}

// linesDiffer: the text of a line is all that tells it from the others of a checklist,
// so two that are equal would be ticked as one.
func (b *builder) linesDiffer(s repairShape) {
	fasteners := make([]prose, len(s.Fasteners))
	for i, f := range s.Fasteners {
		fasteners[i] = f.What
	}
	for list, lines := range map[string][]prose{"steps": slices.Concat(s.First, s.Steps), "off": s.Off, "kept": s.Kept, "scrap": s.Scrap, "fasteners": fasteners} {
		seen := map[string]bool{}
		for _, l := range lines {
			text := strings.Join(strings.Fields(l.Text), " ")
			if seen[text] && text != "" {
				b.report(CodeTwice, l.Place, fmt.Sprintf("this line stands in %s twice; ticked once it counts for both", list), "say what differs (\"once more\", \"on the other side\"), or take one away")
			}
			seen[text] = true
		}
	}
}

// inAny looks words up in the systems of a repair: a repair may serve systems
// that differ, so one that has it is enough.
func (b *builder) inAny(systems []*systemNotes, ids []word, of func(*systemNotes) *register) []string {
	var out []string
	for _, id := range ids {
		switch {
		case !id.Given() || len(systems) == 0:
		case slices.Contains(out, id.Text):
			b.report(CodeTwice, id.Place, fmt.Sprintf("%q is in this list twice", id.Text), "take one away")
		case slices.ContainsFunc(systems, func(n *systemNotes) bool { return of(n).has(id.Text) }):
			out = append(out, id.Text)
		default:
			b.refer(of(systems[0]), id)
		}
	}
	return out
}

// repairFits: in each of its systems a repair clears something and proves it.
func (b *builder) repairFits(s repairShape, systems []*systemNotes) {
	if len(s.Checks) == 0 && s.Repair.Given() {
		b.report(CodeNoChecks, s.Repair.Place, fmt.Sprintf("nothing proves the repair %q", s.Repair.Text), "add checks: the tests to take again")
	}
	for _, n := range systems {
		if len(s.Clears) > 0 && !anyKnown(n.faults, s.Clears) && len(systems) > 1 {
			b.report(CodeNoUse, s.Repair.Place, fmt.Sprintf("%q clears no fault of system %s", s.Repair.Text, n.system.ID), "take the system away, or name one of its faults in clears:")
		}
		if len(s.Checks) > 0 && !anyKnown(n.tests, s.Checks) && len(systems) > 1 {
			b.report(CodeNoChecks, s.Repair.Place, fmt.Sprintf("nothing proves the repair %q in system %s", s.Repair.Text, n.system.ID), "add one of its tests to checks:")
		}
	}
}

func anyKnown(g *register, ids []word) bool {
	return slices.ContainsFunc(ids, func(w word) bool { return g.has(w.Text) })
}

func (b *builder) uses(shapes []useShape) []PartUse {
	var out []PartUse
	for _, s := range shapes {
		if b.refer(b.parts, s.Part) {
			out = append(out, PartUse{Part: s.Part.Text, Qty: b.whole(s.Qty, 1, 1)})
		}
	}
	return out
}

// binned are the parts that go to the parts bin, once tested.
func (b *builder) binned(ids []word) []string {
	out := b.referAll(b.parts, ids)
	for _, id := range ids {
		if p := b.lib.Parts[id.Text]; p != nil && p.NoBin != "" {
			b.report(CodeNoBin, id.Place, fmt.Sprintf("%q never goes to the parts bin: %s", id.Text, p.NoBin), "name it under off: and say where it goes")
		}
	}
	return out
}

func (b *builder) law(shapes []ruleShape) []Rule {
	var out []Rule
	for _, s := range shapes {
		out = append(out, Rule{Cite: b.title(s.Cite), Says: b.tell(s.Says), Ways: b.tellAll(s.Ways)})
	}
	return out
}

func (b *builder) fasteners(shapes []fastenerShape) []Fastener {
	var out []Fastener
	for _, s := range shapes {
		out = append(out, Fastener{What: b.tell(s.What), New: s.New.Value})
	}
	return out
}

// torques refuses every value without a publication behind it: too much breaks
// a bolt, too little loses a blade.
func (b *builder) torques(shapes []torqueShape) []Torque {
	var out []Torque
	for _, s := range shapes {
		id, cite := b.basis(s.Basis)
		if id == practice || id == memory {
			b.report(CodeTorque, s.Basis.Place, fmt.Sprintf("a torque can't rest on %q", id), "name the source that gives it, or take it away and send to the maker's manual in steps:")
		}
		t := Torque{What: b.tell(s.What), Low: b.amount(s.Low, 0, 0), High: b.amount(s.High, 0, 0), Basis: id, Source: cite}
		if t.Low <= 0 && s.Low.Given {
			b.report(CodeBadNumber, s.Low.Place, fmt.Sprintf("%g can't be right here", t.Low), "write it in newton metres")
		}
		if s.Low.Given && s.High.Given && t.High < t.Low {
			b.report(CodeSpan, s.High.Place, fmt.Sprintf("the torque ends at %g and begins at %g", t.High, t.Low), "write the lower one under low:")
		}
		out = append(out, t)
	}
	return out
}
