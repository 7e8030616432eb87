package measure

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	rows := []struct {
		text string
		f    Function
		want Reading // Function and Text are filled in
	}{
		{"12.6", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.1}},
		{"12,6", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.1}},
		{"12.60 V", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.01}},
		{"12", DCVolts, Reading{Kind: Number, Value: 12, Step: 1}},
		{"370mV", DCVolts, Reading{Kind: Number, Value: 0.37, Step: 0.001}},
		{"370 m", DCVolts, Reading{Kind: Number, Value: 0.37, Step: 0.001}},
		{"-12.6", DCVolts, Reading{Kind: Number, Value: -12.6, Step: 0.1}},
		{"- 12.6", DCVolts, Reading{Kind: Number, Value: -12.6, Step: 0.1}},
		{"\u221212.6\u00a0V", DCVolts, Reading{Kind: Number, Value: -12.6, Step: 0.1}},
		{"+12.6", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.1}},
		{"-0.00", DCVolts, Reading{Kind: Number, Value: 0, Step: 0.01}},
		{".37", DCVolts, Reading{Kind: Number, Value: 0.37, Step: 0.01}},
		{"0,370", DCVolts, Reading{Kind: Number, Value: 0.37, Step: 0.001}},
		{",370", DCVolts, Reading{Kind: Number, Value: 0.37, Step: 0.001}},
		{"1234,567", Ohms, Reading{Kind: Number, Value: 1234.567, Step: 0.001}},
		{"1.234", Ohms, Reading{Kind: Number, Value: 1.234, Step: 0.001}},
		{"12.6 V DC", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.1}},
		{"12.6VDC", DCVolts, Reading{Kind: Number, Value: 12.6, Step: 0.1}},
		{"14 vac", ACVolts, Reading{Kind: Number, Value: 14, Step: 1}},
		{"14 ac", ACVolts, Reading{Kind: Number, Value: 14, Step: 1}},
		{"1.2k", Ohms, Reading{Kind: Number, Value: 1200, Step: 100}},
		{"1.2 kΩ", Ohms, Reading{Kind: Number, Value: 1200, Step: 100}},
		{"4k7", Ohms, Reading{Kind: Number, Value: 4700, Step: 100}},
		{"4K7 ohm", Ohms, Reading{Kind: Number, Value: 4700, Step: 100}},
		{"4R7", Ohms, Reading{Kind: Number, Value: 4.7, Step: 0.1}},
		{"2M2", Ohms, Reading{Kind: Number, Value: 2.2e6, Step: 1e5}},
		{"2 M", Ohms, Reading{Kind: Number, Value: 2e6, Step: 1e6}},
		{"6 mohm", Ohms, Reading{Kind: Number, Value: 0.006, Step: 0.001}},
		{"0.4", Continuity, Reading{Kind: Number, Value: 0.4, Step: 0.1}},
		{"31.2 mA", DCAmps, Reading{Kind: Number, Value: 0.0312, Step: 0.0001}},
		{"5 µA", DCAmps, Reading{Kind: Number, Value: 5e-6, Step: 1e-6}},
		{"112 A", ClampAmps, Reading{Kind: Number, Value: 112, Step: 1}},
		{"3.6k", Speed, Reading{Kind: Number, Value: 3600, Step: 100}},
		{"3600 rpm", Speed, Reading{Kind: Number, Value: 3600, Step: 1}},
		{"2.8 s", Seconds, Reading{Kind: Number, Value: 2.8, Step: 0.1}},
		{"5 min", Seconds, Reading{Kind: Number, Value: 300, Step: 60}},
		{"21 °C", Celsius, Reading{Kind: Number, Value: 21, Step: 1}},
		{"21℃", Celsius, Reading{Kind: Number, Value: 21, Step: 1}},
		{"0.562", DiodeTest, Reading{Kind: Number, Value: 0.562, Step: 0.001}},
		{"OL", Ohms, Reading{Kind: OverRange}},
		{"0L", Ohms, Reading{Kind: OverRange}},
		{"O.L", DiodeTest, Reading{Kind: OverRange}},
		{".ol MΩ", Ohms, Reading{Kind: OverRange}},
		{"OL @200", Ohms, Reading{Kind: OverRange, Range: 200}},
		{"flicker", DCVolts, Reading{Kind: Flicker}},
		{"Flickers", DCVolts, Reading{Kind: Flicker}},
		{"12.25..12.75", DCVolts, Reading{Kind: Wanders, Value: 12.5, Low: 12.25, High: 12.75, Step: 0.01}},
		{"12.75 .. 12.25", DCVolts, Reading{Kind: Wanders, Value: 12.5, Low: 12.25, High: 12.75, Step: 0.01}},
		{"250…750 mV", DCVolts, Reading{Kind: Wanders, Value: 0.5, Low: 0.25, High: 0.75, Step: 0.001}},
		{"500 mV..1.5 V", DCVolts, Reading{Kind: Wanders, Value: 1, Low: 0.5, High: 1.5, Step: 0.1}},
		{"-1..1", DCVolts, Reading{Kind: Wanders, Value: 0, Low: -1, High: 1, Step: 1}},
		{"0.18 @2", DCVolts, Reading{Kind: Number, Value: 0.18, Step: 0.01, Range: 2}},
		{"0.18 @ 200mV", DCVolts, Reading{Kind: Number, Value: 0.18, Step: 0.01, Range: 0.2}},
		{"180 mV @200", DCVolts, Reading{Kind: Number, Value: 0.18, Step: 0.001, Range: 0.2}},
		{"4k7 @20", Ohms, Reading{Kind: Number, Value: 4700, Step: 100, Range: 20000}},
	}
	for _, r := range rows {
		t.Run(r.text, func(t *testing.T) {
			got, err := Parse(r.text, r.f)
			require.NoError(t, err)
			require.Equal(t, r.f, got.Function)
			require.Equal(t, r.want.Kind, got.Kind)
			require.InDelta(t, r.want.Value, got.Value, 1e-12)
			require.InDelta(t, r.want.Low, got.Low, 1e-12)
			require.InDelta(t, r.want.High, got.High, 1e-12)
			require.InEpsilon(t, r.want.Step+1, got.Step+1, 1e-12)
			require.InDelta(t, r.want.Range, got.Range, 1e-9)
		})
	}
}

func TestParseFahrenheit(t *testing.T) {
	r, err := Parse("68 °F", Celsius)
	require.NoError(t, err)
	require.InDelta(t, 20, r.Value, 1e-9)
	require.InDelta(t, 5.0/9, r.Step, 1e-9)
}

func TestMillivoltsAreExact(t *testing.T) {
	a, err := Parse("370 mV", DCVolts)
	require.NoError(t, err)
	b, err := Parse("0.370 V", DCVolts)
	require.NoError(t, err)
	require.Equal(t, b.Value, a.Value)
	require.Equal(t, b.Step, a.Step)
}

func TestParseRefuses(t *testing.T) {
	rows := []struct {
		text string
		f    Function
		want string
	}{
		{"", DCVolts, `there is no reading; write what the display shows, such as 12.6`},
		{" \t\u200b ", DCVolts, `there is no reading; write what the display shows, such as 12.6`},
		{"12.6 kohm", DCVolts, `"kohm": kohm does not fit dc volts; write V, mV or kV`},
		{"12.6 A", ACVolts, `"A": A does not fit ac volts; write V, mV or kV`},
		{"12.6 V", Ohms, `"V": V does not fit ohms; write ohm, mohm, kohm or Mohm`},
		{"12.6 X", DCVolts, `"X": no unit is called X; write V, mV or kV`},
		{"12 MV", DCVolts, `"MV": no unit is called MV; write V, mV or kV`},
		{"14 V AC", DCVolts, `"V AC": AC, but this reading is dc volts; set the meter to dc volts and read again`},
		{"14 vdc", ACVolts, `"vdc": DC, but this reading is ac volts; set the meter to ac volts and read again`},
		{"5 ohm DC", Ohms, `"ohm DC": DC does not go with ohms; write ohm, mohm, kohm or Mohm`},
		{"1.2m", Ohms, `"m": m may be milli or mega; write mohm or Mohm`},
		{"1,234", Ohms, `"1,234": the comma may mark thousands or decimals; write 1234 or 1.234`},
		{"-123,456 V", DCVolts, `"-123,456": the comma may mark thousands or decimals; write -123456 or -123.456`},
		{"1,234.5", Ohms, `"1,234.5": two decimal points; write one number, such as 12.6`},
		{"1.2.3", DCVolts, `"1.2.3": two decimal points; write one number, such as 12.6`},
		{"12 34", DCVolts, `"12 34": digits after the number; write one number and its unit, such as 12.6 V`},
		{"1\u200b2", DCVolts, `"1 2": digits after the number; write one number and its unit, such as 12.6 V`},
		{"12.3-12.7", DCVolts, `"12.3-12.7": two numbers; write 12.3..12.7 for a display that wanders`},
		{"1e3", Ohms, `"1e3": a power of ten; write the number out, or use a unit such as mohm`},
		{"AC 14 V", ACVolts, `"AC 14 V": not a reading; write what the display shows, such as 12.6, OL, 12.3..12.7 or flicker`},
		{"NaN", DCVolts, `"NaN": not a reading; write what the display shows, such as 12.6, OL, 12.3..12.7 or flicker`},
		{"Inf", Ohms, `"Inf": not a display; write OL if the meter shows over range`},
		{"∞", Ohms, `"infinite": not a display; write OL if the meter shows over range`},
		{"-OL", DCVolts, `"-OL": over range below zero; swap the leads and read again`},
		{"OL V", Ohms, `"V": V does not fit ohms; write ohm, mohm, kohm or Mohm`},
		{"beep", Continuity, `"beep": the beeper has no limit that can be relied on; write the ohms shown, or OL`},
		{"12..", DCVolts, `there is no number; write what the display shows, such as 12.6`},
		{"flicker..3", DCVolts, `"flicker": not a reading; write what the display shows, such as 12.6, OL, 12.3..12.7 or flicker`},
		{"12.6 @", DCVolts, `there is no number; write what the display shows, such as 12.6`},
		{"12.6 @0", DCVolts, `"@0": a range has a full scale above zero; write it after the reading, such as 0.18 @2`},
		{"12.6 @20 @2", DCVolts, `"20 @2": digits after the number; write one number and its unit, such as 12.6 V`},
		{"1234567890123", Ohms, `"1234567890123": more digits than a display has; write what the display shows, such as 12.6`},
		{"99999999 Mohm", Ohms, `"99999999 Mohm": no meter shows that much; check the digits and the unit`},
		{strings.Repeat("1", 65), DCVolts, `that is too long for a reading; write what the display shows, such as 12.6`},
		{"12", "furlongs", `no meter function is called furlongs; use one of dc volts, ac volts, ohms, continuity, diode test, dc amps, clamp amps, rpm, seconds or celsius`},
	}
	for _, r := range rows {
		t.Run(r.text, func(t *testing.T) {
			_, err := Parse(r.text, r.f)
			var refused *ParseError
			require.ErrorAs(t, err, &refused)
			require.Equal(t, r.want, err.Error())
			require.NotEmpty(t, refused.Hint)
		})
	}
}

func TestTextIsHarmless(t *testing.T) {
	r, err := Parse("\x1b12.6\u202e V\x07", DCVolts)
	require.NoError(t, err)
	require.Equal(t, "12.6 V", r.Text)
	_, err = Parse("12.6 \x1b[31mV", DCVolts)
	require.Error(t, err)
	harmless(t, err.Error())
}

func harmless(t require.TestingT, s string) {
	require.True(t, utf8.ValidString(s))
	require.NotContains(t, s, string(utf8.RuneError))
	for _, r := range s {
		require.True(t, unicode.IsPrint(r), "%U in %q", r, s)
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"12.6", "12,6", "12.6 V", "370mV", "-12.6", ".37", "OL", "0L", "O.L", "1.2k", "4k7", "12.3..12.7",
		"flicker", "\u221212.6\u00a0V", "12.6 V DC", "14 vac", "0.18 @2", "1,234", "0,370", "\x1b[31m1", "1\u202e2", "NaN",
	} {
		f.Add(seed, uint8(0))
		f.Add(seed, uint8(2))
	}
	f.Fuzz(func(t *testing.T, text string, n uint8) {
		function := Functions()[int(n)%len(Functions())]
		r, err := Parse(text, function)
		if err != nil {
			var refused *ParseError
			require.ErrorAs(t, err, &refused)
			harmless(t, err.Error())
			return
		}
		harmless(t, r.Text)
		require.LessOrEqual(t, r.size(), mostValue)
		require.LessOrEqual(t, r.Low, r.High)
		again, err := Parse(r.Text, function)
		require.NoError(t, err)
		require.Equal(t, r, again)
	})
}

func TestWhatFormatWritesParseReads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(Functions()).Draw(t, "function")
		name := rapid.SampledFrom(Units(f)).Draw(t, "unit")
		_, per, ok := UnitFactor(name)
		require.True(t, ok)
		count := rapid.IntRange(-19999, 19999).Draw(t, "counts")
		places := rapid.IntRange(0, 4).Draw(t, "places")
		step := per
		for range places {
			step /= 10
		}
		r, err := Parse(Format(float64(count)*step, name, per, step), f)
		require.NoError(t, err)
		require.InDelta(t, float64(count)*step, r.Value, 1e-9*step*19999)
		require.InEpsilon(t, step, r.Step, 1e-9)
	})
}
