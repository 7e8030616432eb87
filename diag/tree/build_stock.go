package tree

import (
	"fmt"

	"benchlead/diag/measure"
)

// stock takes in the lists that files share: sources, cautions, make-safe
// items, parts, meters, troubles, services, words of the trade.
func (b *builder) stock() {
	b.cautions = newRegister("caution", "", "cautions")
	b.safe = newRegister("safe item", "", "safe")
	b.parts = newRegister("part", "", "parts")
	b.meters = newRegister("meter", "", "meters")
	b.sources = newRegister("basis", "", "sources")
	b.troubles = newRegister("trouble", "", "troubles")
	b.services = newRegister("service", "", "services")
	for _, s := range b.stockShapes {
		for _, shape := range s.Sources {
			if b.add(b.sources, shape.Source, sourceID) {
				b.cites[shape.Source.Text] = b.tell(shape.Cite)
			}
			b.reserved(shape.Source)
		}
	}
	for _, s := range b.stockShapes {
		for _, shape := range s.Safe {
			b.safeItem(shape)
		}
		for _, shape := range s.Cautions {
			b.caution(shape)
		}
		for _, shape := range s.Parts {
			b.part(shape)
		}
		for _, shape := range s.Meters {
			b.meter(shape)
		}
		for _, shape := range s.Troubles {
			if b.add(b.troubles, shape.Trouble, plainID) {
				b.lib.Troubles = append(b.lib.Troubles, Trouble{ID: shape.Trouble.Text, Title: b.title(shape.Title), Also: b.tell(shape.Also)})
			}
		}
	}
	b.sets()
	b.serviceList()
	b.terms()
}

// The bases that are no published source.
const (
	practice = "practice" // common practice, no source
	memory   = "memory"   // from memory, not seen in a source
)

func (b *builder) reserved(id word) {
	if id.Text == practice || id.Text == memory {
		b.report(CodeBadID, id.Place, fmt.Sprintf("%q can't be the id of a source", id.Text), "it says that there is none; choose another id")
	}
}

// basis checks where a value is from, and returns it with the citation.
func (b *builder) basis(w word) (id, cite string) {
	switch w.Text {
	case "":
		return "", ""
	case practice:
		return w.Text, "common practice, no source"
	case memory:
		return w.Text, "from memory, not verified"
	}
	if !b.refer(b.sources, w) {
		return "", ""
	}
	return w.Text, b.cites[w.Text]
}

func (b *builder) safeItem(shape safeShape) {
	if !b.add(b.safe, shape.Item, plainID) {
		return
	}
	item := &SafeItem{ID: shape.Item.Text, Title: b.title(shape.Title), Order: len(b.lib.Safe)}
	settings := newRegister("setting", "", "settings")
	for _, s := range shape.Settings {
		if b.add(settings, s.Setting, plainID) {
			item.Settings = append(item.Settings, Setting{ID: s.Setting.Text, Tell: b.tell(s.Tell), Back: s.Back.Value, Unfit: s.Unfit.Value, After: s.After.Text})
		}
	}
	b.leftOnce(shape)
	b.lib.Safe[item.ID] = item
	if item.ID == redJack && (!settings.has("volts") || !settings.has("amps")) {
		b.report(CodeMissing, shape.Item.Place, fmt.Sprintf("%q needs the settings \"volts\" and \"amps\": the jacks that the red lead may be in", redJack), "add the setting that is missing")
	}
}

// leftOnce: of a machine that is not to be run an item is left in one setting, which
// is another than that of one that is.
func (b *builder) leftOnce(shape safeShape) {
	unfit := false
	for _, s := range shape.Settings {
		switch {
		case s.Unfit.Value && s.Back.Value:
			b.report(CodeNotBoth, s.Setting.Place, fmt.Sprintf("%q is left as %q whether the machine is to be run or not", shape.Item.Text, s.Setting.Text), "keep back: and take unfit: away")
		case s.Unfit.Value && unfit:
			b.report(CodeTwice, s.Setting.Place, fmt.Sprintf("%q is left in two settings when the machine is not to be run", shape.Item.Text), "keep unfit: on one of them")
		}
		unfit = unfit || s.Unfit.Value
	}
}

func (b *builder) caution(shape cautionShape) {
	if !b.add(b.cautions, shape.Caution, plainID) {
		return
	}
	_, cite := b.basis(shape.Basis)
	b.lib.Cautions[shape.Caution.Text] = &Caution{
		ID: shape.Caution.Text, Title: b.title(shape.Title), Tell: b.tell(shape.Tell),
		Basis: shape.Basis.Text, Source: cite, Stops: shape.Stops.Value, Likely: shape.Likely.Value,
	}
}

func (b *builder) meter(shape meterShape) {
	if !b.add(b.meters, shape.Meter, plainID) {
		return
	}
	m := &measure.Meter{ID: shape.Meter.Text, Title: b.title(shape.Title), TrueRMS: shape.TrueRMS.Value}
	for _, s := range shape.Scales {
		if !b.only(s.Measure, "something a meter measures", functions()) {
			continue
		}
		m.Scales = append(m.Scales, measure.Scale{
			Function:  measure.Function(s.Measure.Text),
			FullScale: b.amount(s.Full, 0, 0), Resolution: b.amount(s.Step, 0, 0),
			Percent: b.amount(s.Percent, 0, 0), Counts: b.amount(s.Counts, 0, 0), InputOhms: b.amount(s.Input, 0, 0),
		})
		b.scaleFits(s)
	}
	b.lib.Meters[m.ID] = m
}

// scaleFits reports a scale on which nothing can be read.
func (b *builder) scaleFits(s scaleShape) {
	if s.Full.Given && s.Step.Given && (s.Step.Value <= 0 || s.Full.Value < s.Step.Value) {
		b.report(CodeBadNumber, s.Step.Place,
			fmt.Sprintf("one step is %g and full scale %g", s.Step.Value, s.Full.Value), "give both in base units (V, A, ohm): step: 0.01 with full: 20")
	}
}
