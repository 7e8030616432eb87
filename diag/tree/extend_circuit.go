package tree

import (
	"slices"
	"strings"
)

// circuitFiles are the circuits of all systems, by system: what a system that
// extends another writes of its circuit is laid over the other's.
func (b *builder) circuitFiles() []*circuitShape {
	var out []*circuitShape
	for _, s := range b.circuitShapes {
		system := b.notes[s.Circuit.Text]
		if system == nil || b.circuitOf(system.shape.Extends.Text) == nil {
			out = append(out, s)
			continue
		}
		out = append(out, s.over(b.circuitOf(system.shape.Extends.Text)))
	}
	return out
}

// wholeCircuit reports what a circuit that extends none must have.
func (b *builder) wholeCircuit(s *circuitShape) {
	if !s.Circuit.Given() || b.badFiles[s.Circuit.Place.File] {
		return
	}
	if !s.Ground.Given() {
		b.report(CodeMissing, s.Circuit.Place, "\"ground\" is missing", "add ground: the point that volts are counted from")
	}
	if len(s.Complaints) == 0 {
		b.report(CodeMissing, s.Circuit.Place, "\"complaints\" is missing", "add complaints: what the owner would come in with")
	}
}

func (b *builder) circuitOf(system string) *circuitShape {
	i := slices.IndexFunc(b.circuitShapes, func(s *circuitShape) bool { return system != "" && s.Circuit.Text == system })
	if i < 0 {
		return nil
	}
	return b.circuitShapes[i]
}

// over lays a circuit over that of the system which its system extends.
func (s *circuitShape) over(base *circuitShape) *circuitShape {
	out := *s
	out.Include = united(base.Include, s.Include)
	if !s.Ground.Given() {
		out.Ground = base.Ground
	}
	if len(s.Complaints) == 0 {
		out.Complaints = base.Complaints
	}
	out.base = &base.circuitContents
	return &out
}

// laidOver is what a circuit has in all: what is included before its own, and
// its own in the place of what it extends.
func (c circuitContents) laidOver(base circuitContents, without []string) circuitContents {
	return circuitContents{
		Joints:    laid(c.Joints, base.Joints, without, func(s jointShape) string { return s.Joint.Text }),
		Values:    laid(c.Values, base.Values, without, func(s valueShape) string { return s.Value.Text }),
		Positions: laid(c.Positions, base.Positions, without, func(s positionShape) string { return s.Position.Text }),
		States:    laid(c.States, base.States, without, func(s stateSets) string { return s.State.Text }),
		Setups:    laid(c.Setups, base.Setups, without, func(s setupSets) string { return s.Setup.Text }),
		Waves:     laid(c.Waves, base.Waves, without, func(s word) string { return s.Text }),
		Parts:     laid(c.Parts, base.Parts, without, func(s pieceShape) string { return s.Part.Text }),
		Faults:    laid(c.Faults, base.Faults, without, func(s breakageShape) string { return s.Fault.Text }),
		Together: laid(c.Together, base.Together, without, func(s togetherShape) string {
			return strings.Join(texts(s.Faults), " ")
		}),
		Told:       laid(c.Told, base.Told, without, func(s toldShape) string { return s.Told.Text }),
		Shows:      laid(c.Shows, base.Shows, without, func(s showShape) string { return s.Test.Text }),
		Reads:      laid(c.Reads, base.Reads, without, func(s readsShape) string { return s.Test.Text }),
		Work:       laid(c.Work, base.Work, without, func(s effectShape) string { return s.Work.Text }),
		Stages:     laid(c.Stages, base.Stages, without, func(s stageShape) string { return s.Stage.Text }),
		Unmodelled: laid(c.Unmodelled, base.Unmodelled, without, func(s leftOutShape) string { return s.What.Text }),
	}
}
