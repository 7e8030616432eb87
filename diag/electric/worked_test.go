package electric

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// worked is a worked example: the numbers a source (or plain arithmetic on a
// published rule) gives, and what our function makes of them.
type worked struct {
	name   string
	source string
	want   float64
	within float64
	got    float64
}

func checkWorked(t *testing.T, rows []worked) {
	t.Helper()
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			require.InDelta(t, r.want, r.got, r.within, r.source)
		})
	}
}

// exact allows for the last bits only.
const exact = 1e-9

func TestLeadWorked(t *testing.T) {
	f := celsiusOf
	checkWorked(t, []worked{
		{"gravity, cold", "rule of TM 5-4210-230-14&P-1 p 457", 1.226, 5e-4, GravityAt80F(1.250, f(20))},
		{"gravity, warm", "rule of TM 5-4210-230-14&P-1 p 457", 1.243, 5e-4, GravityAt80F(1.235, f(100))},
		{"gravity, 10 °F over", "rule of TM 5-4210-230-14&P-1 p 457", 1.254, 5e-4, GravityAt80F(1.250, f(90))},
		{"gravity, 10 °F under", "rule of TM 5-4210-230-14&P-1 p 457", 1.246, 5e-4, GravityAt80F(1.250, f(70))},
		{"gravity at 35 °C", "maker's manual, standby battery, 0.007 per 10 °C", 1.262, 5e-4, GravityAt25C(1.255, 35)},
		{"gravity at 15 °C", "maker's manual, standby battery, 0.007 per 10 °C", 1.268, 5e-4, GravityAt25C(1.275, 15)},
		{"gravity shown, 0 °F", "TM 5-1185 Table IV", 1.312, 1e-3, GravityShown(1.280, f(0))},
		{"gravity shown, 40 °F", "TM 5-1185 Table IV", 1.296, 1e-3, GravityShown(1.280, f(40))},
		{"gravity shown, 100 °F", "TM 5-1185 Table IV", 1.272, 1e-3, GravityShown(1.280, f(100))},
		{"load floor, 30 °F", "TM 5-4210-230-14&P-1 Table 5, p 463", 9.1, exact, LoadFloor(f(30), 6)},
		{"load floor, 25 °F", "between rows of TM 5-4210-230-14&P-1 Table 5", 9.0, exact, LoadFloor(f(25), 6)},
		{"slow charge, 9 plates", "TM 5-4210-230-14&P-1 p 465", 4, exact, SlowChargeAmps(9)},
		{"charge in 10 h", "TM 5-4210-230-14&P-1 p 463", 50, exact, AhDelivered(5, 10)},
		{"charge in 30 min", "TM 10-3930-644-14&P p 249: 1800 A-min", 1800.0 / 60, exact, AhDelivered(60, 0.5)},
		{"float at 30 °C", "encyclopedia article, float voltage", 13.25, 1e-3, LeadFloat(30, 6, Flooded)},
		{"hydrogen, float", "battery maker's ventilation appendix p 38", 0.30, 5e-3, HydrogenFloat(960, 24)},
		{"hydrogen, overcharge", "IEEE 484 formula page", 0.161, 1e-3, HydrogenOvercharge(25, 24)},
		{"hydrogen alarm", "OSHA letter 26 Jan 1976, 4.1 %; a quarter of it", 0.01, 5e-4, HydrogenAlarm},
		{"Peukert, 120 A", "tutoring note on Peukert's law", 0.30, 5e-3, PeukertHours(120, 20, 120, 1.4)},
		{"Peukert, 1 A capacity", "electrical note on Peukert's law, 2010", 14.5, 0.05, PeukertHours(100, 100, 5, 1.2)},
		{"Peukert, 10 A", "the formula itself; a printed table differs", 93.3, 0.05, PeukertAh(100, 20, 10, 1.1)},
		{"Peukert, 100 A", "the formula itself; a printed table differs", 74.1, 0.05, PeukertAh(100, 20, 100, 1.1)},
		{"freezing", "TM 5-4210-230-14&P-1 Table 2, p 458: -15 °F (-26.1 °C)", -26.1, 0.05, GravityFreezes(1.190)},
		{"freezing at half charge", "TM 5-4210-230-14&P-1 Table 2, p 458", -26.1, 0.05, LeadFreezes(0.5)},
		{"half charge by gravity", "TM 5-4210-230-14&P-1 Table 2, p 458", 0.5, exact, GravityCharge(1.190)},
		{"cranking power, 0 °F", "TM 5-4210-230-14&P-1 Table 3", 0.40, exact, CrankPower(f(0))},
		{"cranking power, freezing", "TM 5-4210-230-14&P-1 Table 3", 0.65, exact, CrankPower(0)},
	})
}

func TestCopperWorked(t *testing.T) {
	const feet = 0.3048
	checkWorked(t, []worked{
		{"other coefficient", "textbook problem, from memory", 15.909, 1e-3, CopperFrom(15.0, 20, 35, 0.004041)},
		{"coefficient from its own start", "published worked problem", 33.248, 0.01, CopperFrom(28.2, 24.5, 68.8, 0.004041)},
		{"same by the 20 °C rule", "NBS Handbook 100 rule", 33.024, 0.01, CopperOhms(Copper20(28.2, 24.5), 68.8)},
		{"measured coil, rule", "arithmetic on 0.00393 per °C", 0.3226, 5e-4, CopperOhms(0.250, celsiusOf(201))},
		{"measured coil, as measured", "a builder's log of a light-engine stator", 0.337, 0.337 * 0.05, CopperOhms(0.250, celsiusOf(201))},
		{"AWG 10 diameter", "gauge conversion page, ASTM B258", 2.588, 1e-3, WireMillimetres(10)},
		{"AWG 10 area", "gauge conversion page, ASTM B258", 5.261, 1e-3, WireArea(10)},
		{"AWG 12, 1000 ft", "worked answer; tables print 1.588", 1.588, 2e-3, WireOhms(12, 1000*feet, 20)},
		{"AWG 12 by area", "worked answer from 3.31 mm²", 1.587, 2e-3, CableOhms(3.31, 304.8, 20)},
		{"AWG 18, 400 ft at 25 °C", "conductor table, 6.505 ohm per 1000 ft", 2.602, 2.602 * 0.005, WireOhms(18, 400*feet, 25)},
		{"4.6 ohm at 60 °C", "0.00393 per °C, 40-digit arithmetic", 3.975112340, 1e-6, Copper20(4.6, 60)},
		{"4.00 ohm at -10 °C", "0.00393 per °C, 40-digit arithmetic", 4.534633262, 1e-6, Copper20(4.00, -10)},
		{"0.45 ohm at 80 °C", "0.00393 per °C, 40-digit arithmetic", 0.3641365917, 1e-6, Copper20(0.45, 80)},
	})
}

func TestWireTable(t *testing.T) {
	// Ohms per 1000 ft at 20 °C, solid annealed copper: printed wire tables
	// (12 to 22); ASTM B258 diameters and NBS Handbook 100 resistivity worked
	// out by hand in circular mils (2 to 10).
	rows := map[float64]float64{
		2: 0.1563, 4: 0.2485, 6: 0.3951, 8: 0.6282, 10: 0.9988,
		12: 1.588, 14: 2.525, 16: 4.016, 18: 6.385, 20: 10.15, 22: 16.14,
	}
	for awg, want := range rows {
		require.InEpsilon(t, want, WireOhms(awg, 304.8, 20), 1e-3, "AWG %v", awg)
	}
	require.InDelta(t, 0.4600*25.4, WireMillimetres(-3), 1e-3, "4/0 is 0.4600 in, ASTM B258")
	require.InDelta(t, 0.0050*25.4, WireMillimetres(36), 1e-9, "36 is 0.0050 in, ASTM B258")
}

func TestCircuitWorked(t *testing.T) {
	cable := DropCable(5 * 0.3048)
	checkWorked(t, []worked{
		{"insulated side", "TM 5-3820-256-24-4 p 8", DropInsulated, exact, cable + DropSwitch + DropSolenoid + DropConnection},
		{"drop rule, 150 A", "TM 10-3930-671-24 p F-303", 0.30, exact, DropAllowed(150)},
		{"drop rule, milliohms", "TM 10-3930-671-24 p F-303", 2.0, exact, 1000 * DropAllowed(1)},
		{"back-EMF", "solved motor problem, 460 V", 442, 0.1, BackEMF(460, 120, 0.15)},
		{"amps against back-EMF", "solved motor problem, 460 V", 84, 0.1, MotorAmps(460, 447.4, 0.15)},
		{"armature from start amps", "solved motor problem, 115 V", 5.349, 1e-3, ArmatureOhms(115, 21.5)},
		{"back-EMF, running", "solved motor problem, 115 V", 80.2, 0.1, BackEMF(115, 6.5, ArmatureOhms(115, 21.5))},
		{"small motor", "physics practice problem, 6 V", 0.50, 0.01, CoilOhms(6.00-4.50, 3.00)},
		{"small motor, stalled", "same data, no back-EMF", 12.0, 0.01, StallAmps(6.00, 0.50)},
		{"generator", "textbook problem 26.3, shunt generator", 243.62, 0.1, GeneratorEMF(230, 450+230.0/50, 0.03)},
		{"meter 10 kohm", "Army munitions course MM0455, Fig 5-1", 3.33, 0.01, Loaded(5, Parallel(10e3, 10e3), 10e3)},
		{"meter 20 kohm/V", "tutorial on voltmeter loading, 30 V", 10, exact, Loaded(15, Parallel(400e3, 400e3), 400e3)},
		{"meter 7.5 kohm", "textbook exercise, 12 V", 5.806, 2e-3, Loaded(6, Parallel(500, 500), 7500)},
		{"10 Mohm on 100 kohm", "loading formula of a meter manual", 0.9901, 1e-4, Loaded(1, 100e3, 10e6)},
		{"10 Mohm on 1 Mohm", "loading formula of a meter manual", 0.9091, 1e-4, Loaded(1, 1e6, 10e6)},
		{"true volts again", "instrumentation notes, loading of a divider", 5, exact, Unloaded(Loaded(5, 5e3, 10e3), 5e3, 10e3)},
		{"pull-in winding", "TM 5-2420-230-24-2 p 13-33, class A", 0.1786, 1e-3, PullInOhms(10, 69, 13)},
		{"hold-in winding", "TM 5-2420-230-24-2 p 13-33, class A", 0.7692, 1e-3, HoldInOhms(10, 13)},
		{"24 V pull-in, low", "TM 9-4940-568-34 p 5-157", 0.16, 5e-3, CoilOhms(20, 125)},
		{"24 V pull-in, high", "TM 9-4940-568-34 p 5-157", 0.20, 5e-3, CoilOhms(20, 100)},
		{"relay coil", "relay data sheet, 12 V 100 ohm", 0.12, exact, CoilAmps(12, 100)},
		{"relay coil heat", "relay data sheet, 1.44 W", 1.44, 0.01, CoilWatts(12, 100)},
		{"diode at 1 mA", "maker's circuit model of the 1N4007", 0.555, 2e-3, DiodeVolts(1e-3, 27)},
		{"diode at 1 A", "maker's circuit model of the 1N4007", 0.9121, 1e-4, DiodeVolts(1, 27)},
		{"diode at 10 mA", "maker's circuit model of the 1N4007", 0.6629, 1e-4, DiodeVolts(10e-3, 27)},
		{"stator, 12 poles", "a builder's log: 340 Hz at 3400 rpm", 340, exact, StatorHertz(12, 3400)},
		{"stator, per 1000 rpm", "same log: 45 V at 3400 rpm", 13.2, 0.05, StatorVolts(1000, 45, 3400)},
	})
}

func TestLithiumWorked(t *testing.T) {
	const chart = "device-tree example of a kernel driver, 18650 cell"
	checkWorked(t, []worked{
		{"three cells full", "charger circuit data sheet, 4.20 V", 12.60, exact, LithiumFull(3, LithiumIon)},
		{"low end", "same, ±1 %", 12.474, exact, LithiumFullLeast(3, LithiumIon)},
		{"high end", "same, ±1 %", 12.726, exact, LithiumFullMost(3, LithiumIon)},
		{"five cells full", "same", 21.00, exact, LithiumFull(5, LithiumIon)},
		{"five cells nominal", "cell tables, 3.7 V", 18.5, exact, LithiumNominal(5, LithiumIon)},
		{"five cells empty", "cell tables, 3.0 V", 15.0, exact, LithiumEmpty(5, LithiumIon)},
		{"five cells unsafe", "note on deep discharge, 2.0 V", 10.0, exact, LithiumUnsafe(5, LithiumIon)},
		{"rest at half", chart, 11.52, exact, LithiumRest(0.5, 3, LithiumIon)},
		{"rest at a fifth", chart, 11.19, exact, LithiumRest(0.2, 3, LithiumIon)},
		{"charge by rest volts", chart, 0.50, 0.01, LithiumCharge(11.52, 3, LithiumIon)},
		{"iron-phosphate, four nominal", "iron-phosphate charts", 12.8, exact, LithiumNominal(4, IronPhosphate)},
		{"iron-phosphate, four full", "iron-phosphate charts", 14.6, exact, LithiumFull(4, IronPhosphate)},
		{"iron-phosphate, high end", "iron-phosphate charts, ±0.2 V", 14.8, exact, LithiumFullMost(4, IronPhosphate)},
		{"iron-phosphate, four empty", "iron-phosphate charts", 10.0, exact, LithiumEmpty(4, IronPhosphate)},
	})
}
