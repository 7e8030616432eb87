package measure

import (
	"slices"
	"strings"
)

// spellings are the ways people and displays write units, by base unit. The
// first letter keeps its case only where it is an m (milli or mega).
var spellings = map[string]map[string]string{
	"V": {
		"v": "V", "volt": "V", "volts": "V", "mv": "mV", "m": "mV", "millivolt": "mV", "millivolts": "mV",
		"uv": "uV", "u": "uV", "kv": "kV", "k": "kV",
	},
	"ohm": {
		"ohm": "ohm", "ohms": "ohm", "r": "ohm", "mohm": "mohm", "mohms": "mohm", "milliohm": "mohm",
		"milliohms": "mohm", "k": "kohm", "kohm": "kohm", "kohms": "kohm", "kiloohm": "kohm", "kiloohms": "kohm",
		"M": "Mohm", "Mohm": "Mohm", "Mohms": "Mohm", "megohm": "Mohm", "megohms": "Mohm", "meg": "Mohm",
		"Megohm": "Mohm", "Megohms": "Mohm", "Meg": "Mohm",
	},
	"A": {
		"a": "A", "amp": "A", "amps": "A", "ampere": "A", "amperes": "A", "ma": "mA", "m": "mA",
		"milliamp": "mA", "milliamps": "mA", "ua": "uA", "u": "uA",
	},
	"rpm":  {"rpm": "rpm", "r/min": "rpm", "/min": "rpm", "1/min": "rpm", "k": "krpm", "krpm": "krpm"},
	"s":    {"s": "s", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "ms": "ms", "min": "min", "mins": "min", "minutes": "min", "h": "h", "hours": "h"},
	"degC": {"c": "degC", "degc": "degC", "celsius": "degC", "f": "degF", "degf": "degF", "fahrenheit": "degF"},
}

// typed adds what people may type but trees may not write.
func typed(name string) unit {
	switch name {
	case "krpm":
		return unit{base: "rpm", power: 3}
	case "degF": // offset by quantity.base
		return unit{base: "degF"}
	}
	return units[name]
}

// signs turns the characters of displays and word processors into ours.
var signs = strings.NewReplacer(
	"\u2212", "-", "\u2013", "-", "\u2126", "ohm", "\u03a9", "ohm", "\u00b5", "u", "\u03bc", "u",
	"\u2103", "degC", "\u2109", "degF", "\u00b0", "deg", "\u00ba", "deg", "\u2026", "..", "\u221e", "infinite",
)

// spelled lowers a unit's letters, save an M at its start, which is mega.
func spelled(s string) string {
	low := strings.ToLower(strings.ReplaceAll(s, " ", ""))
	if strings.HasPrefix(s, "M") {
		return "M" + low[1:]
	}
	return low
}

// current takes "ac" or "dc" off either end of a spelled unit.
func current(s string) (rest, kind string) {
	for _, kind := range []string{"ac", "dc"} {
		if r, ok := strings.CutSuffix(s, kind); ok {
			return r, kind
		}
		if r, ok := strings.CutPrefix(s, kind); ok {
			return r, kind
		}
	}
	return s, ""
}

// findUnit reads the unit part of a typed quantity for a function. Nothing
// typed gives ok false and no error.
func findUnit(text string, f Function) (u unit, ok bool, err error) {
	if text == "" {
		return unit{}, false, nil
	}
	name, kind := current(spelled(text))
	if err := fitsCurrent(text, kind, f); err != nil {
		return unit{}, false, err
	}
	if name == "" {
		return unit{}, false, nil
	}
	if name == "m" && f.Base() == "ohm" {
		return unit{}, false, refuse(text, "m may be milli or mega", "write mohm or Mohm")
	}
	if known, found := spellings[f.Base()][name]; found {
		return typed(known), true, nil
	}
	return unit{}, false, refuse(text, misfit(text, name, f), "write "+choices(Units(f)))
}

func fitsCurrent(text, kind string, f Function) error {
	want := settings[f].current
	switch {
	case kind == "" || kind == want:
		return nil
	case want == "":
		return refuse(text, strings.ToUpper(kind)+" does not go with "+string(f), "write "+choices(Units(f)))
	}
	return refuse(text, strings.ToUpper(kind)+", but this reading is "+string(f),
		"set the meter to "+string(f)+" and read again")
}

// misfit says whether the text is a unit of something else or none at all.
func misfit(text, name string, f Function) string {
	for _, words := range spellings {
		if _, ok := words[name]; ok {
			return text + " does not fit " + string(f)
		}
	}
	return "no unit is called " + text
}

// choices joins words for a hint: "V, mV or kV".
func choices(words []string) string {
	words = slices.DeleteFunc(words, func(w string) bool { return w == "uV" })
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
