package spice

import (
	"fmt"
	"strings"

	"benchlead/diag/circuit"
)

// AtRest and InTime are the options that decks are written with, at 27 C. At rest
// ngspice has the solver's conductance of 1e-12 S at every junction and node. In
// time a bridge's winding that all diodes cut off is too loose for that, and the
// step shrinks to nothing: its nodes get 1e-9 S, a hundredth of the insulation's,
// and Gear's method, which does not ring where a diode lets go.
const (
	AtRest = "gmin=1e-12 rshunt=1e12 reltol=1e-9 abstol=1e-15 vntol=1e-12 temp=27 tnom=27"
	InTime = "gmin=1e-12 rshunt=1e9 reltol=1e-5 abstol=1e-9 vntol=1e-6 itl4=50 method=gear maxord=2 temp=27 tnom=27"
)

// Measures are what Waves asks of every quantity, as the fields of circuit.Wave.
var Measures = []string{"Mean", "Average", "True", "RMS", "Cheap", "Least", "Most"}

// OperatingPoint is the deck that prints quantities at rest.
func (d *Deck) OperatingPoint(asks ...Ask) string {
	control := []string{"op"}
	for _, a := range asks {
		control = append(control, "let "+a.Name+" = "+a.Expression, "print "+a.Name)
	}
	return d.text(AtRest, control)
}

// Repeat is the deck that finds the operating point n times in one process and
// says nothing: what is left of the time is solving.
func (d *Deck) Repeat(n int) string {
	return d.text(AtRest, again(n, "op"))
}

// RepeatRun is the deck that follows the circuit n times in one process.
func (d *Deck) RepeatRun(n int, r circuit.Run) string {
	return d.text(InTime, again(n, over(r)))
}

// again forgets each answer, so that none piles up.
func again(n int, analysis string) []string {
	return []string{fmt.Sprintf("repeat %d", n), analysis, "destroy all", "end"}
}

// Waves is the deck that follows the circuit from a start at zero and prints
// every measure of every quantity over the kept cycles, as name_Measure.
func (d *Deck) Waves(r circuit.Run, asks ...Ask) string {
	from, to := float64(r.Settle)/r.Hertz, float64(r.Settle+r.Keep)/r.Hertz
	control := []string{over(r)}
	for _, a := range asks {
		control = append(control, measures(a, fmt.Sprintf("from=%s to=%s", number(from), number(to)))...)
	}
	return d.text(InTime, control)
}

// measures are the lines for one quantity. Factors are those of circuit.Wave:
// form factors of a sine. What is coupled by a capacitor is taken about the
// mean, so that nothing cancels.
func measures(a Ask, window string) []string {
	q := a.Name
	return []string{
		"let " + q + " = " + a.Expression,
		"meas tran " + q + "_Mean avg " + q + " " + window,
		"meas tran " + q + "_RMS rms " + q + " " + window,
		"meas tran " + q + "_Least min " + q + " " + window,
		"meas tran " + q + "_Most max " + q + " " + window,
		"let " + q + "_d = " + q + "-" + q + "_Mean",
		"let " + q + "_m = abs(" + q + "_d)*pi/(2*sqrt(2))",
		"let " + q + "_p = (" + q + "+abs(" + q + "))/2*pi/sqrt(2)",
		"meas tran " + q + "_True rms " + q + "_d " + window,
		"meas tran " + q + "_Average avg " + q + "_m " + window,
		"meas tran " + q + "_Cheap avg " + q + "_p " + window,
		"print " + q + "_" + strings.Join(Measures, " "+q+"_"),
	}
}

// Trace is the deck that follows the circuit until stop, in seconds, and writes
// time and quantities to a file, in columns.
func (d *Deck) Trace(step, stop float64, file string, asks ...Ask) string {
	control := []string{tran(step, stop), "set wr_singlescale"}
	names := make([]string, 0, len(asks))
	for _, a := range asks {
		control = append(control, "let "+a.Name+" = "+a.Expression)
		names = append(names, a.Name)
	}
	return d.text(InTime, append(control, "wrdata "+plain(file)+" "+strings.Join(names, " ")))
}

// over follows a whole run.
func over(r circuit.Run) string {
	return tran(1/(r.Hertz*float64(r.Steps)), float64(r.Settle+r.Keep)/r.Hertz)
}

// tran follows from zero with no step longer than the given one.
func tran(step, stop float64) string {
	return fmt.Sprintf("tran %s %s 0 %s uic", number(step), number(stop), number(step))
}

func (d *Deck) text(options string, control []string) string {
	var b strings.Builder
	b.WriteString("* " + d.title + "\n.options " + options + "\n")
	for _, l := range d.lines {
		b.WriteString(l + "\n")
	}
	b.WriteString(".control\nset numdgt=15\n")
	for _, l := range control {
		b.WriteString(l + "\n")
	}
	b.WriteString("quit 0\n.endc\n.end\n")
	return b.String()
}
