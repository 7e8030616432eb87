package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// ofMachine are the questions about one machine of a system.
func (i *Intake) ofMachine(sys *tree.System) []item {
	items := []item{
		askWords("Machine, in your words", "So that you know it again, here and on its tag: colour, size, whose it is.", func(in *job.Intake, s string) { in.Machine = s }),
		askWords("Owner or ticket", "A name or a number; \"benchlead jobs\" finds the job by it.", func(in *job.Intake, s string) { in.Owner = s }),
		askHistory(sys),
	}
	for _, field := range sys.Label {
		items = append(items, i.askLabel(sys, field))
	}
	return append(items, askCelsius(), i.askMeter(), askWorth(i.money))
}

func askWords(title, about string, set func(*job.Intake, string)) item {
	return item{
		Question: Question{Title: title, Default: "not said", About: about, Mistake: mistakeWords},
		set: func(in *job.Intake, text string) error {
			if len([]rune(text)) > 120 {
				return fmt.Errorf("keep it under 120 characters; a note can hold the rest")
			}
			set(in, text)
			return nil
		},
		unset: func(in *job.Intake) { set(in, "") },
	}
}

func askHistory(sys *tree.System) item {
	var ids, choices []string
	for n, c := range sys.History {
		ids = append(ids, c.Name)
		choices = append(choices, fmt.Sprintf("%d %s", n+1, ChoiceTitle(c)))
	}
	return item{
		Question: Question{Title: "What changed just before (several numbers are fine)", twice: true, Choices: choices, Default: "nothing known", Ask: "one number of the list, or several", Mistake: mistakeHistory, About: "What the owner remembers of the days before. It makes some faults likelier and rules none out."},
		set: func(in *job.Intake, text string) error {
			in.History = nil
			for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
				id, err := among(ids, word)
				if err != nil {
					return err
				}
				in.History = append(in.History, id)
			}
			return nil
		},
		unset: func(in *job.Intake) { in.History = nil },
	}
}

func (i *Intake) askLabel(sys *tree.System, field tree.LabelField) item {
	if len(field.Options) > 0 {
		var choices []string
		for n, o := range field.Options {
			choices = append(choices, fmt.Sprintf("%d %s", n+1, o))
		}
		if choice, ok := cantTellOption(field); ok {
			choices = append(choices, choice)
		}
		return item{
			Question: Question{Title: field.Ask, Choices: choices, Default: byType(field.Word), About: about(field), Mistake: mistakeLabel},
			set: func(in *job.Intake, text string) (err error) {
				if saysCantTell(field, text) {
					delete(in.LabelText, field.ID) // as when it is passed over: the verdict says so
					return nil
				}
				word, err := among(field.Options, text)
				if err == nil {
					in.LabelText[field.ID] = word
				}
				return err
			},
			unset: func(in *job.Intake) { delete(in.LabelText, field.ID) },
			words: field.Options,
		}
	}
	values, _ := walk.Values(sys, i.in)
	usual := "not known"
	if v, ok := values.Numbers["label."+field.ID]; ok {
		usual = strings.TrimSpace(trim(v)+" "+field.Unit) + ", by type"
	}
	return item{
		Question: Question{Title: field.Ask, Default: usual, Ask: numberIn(field.Unit), About: about(field), Mistake: mistakeLabel},
		set: func(in *job.Intake, text string) error {
			v, err := labelNumber(field, text)
			if err == nil {
				in.Label[field.ID] = v
			}
			return err
		},
		unset: func(in *job.Intake) { delete(in.Label, field.ID) },
	}
}

// byType says what a field is taken for that is passed over.
func byType(word string) string {
	if word == "unknown" {
		return word
	}
	return word + ", by type"
}

func askCelsius() item {
	return item{
		Question: Question{Title: "How warm is the bench, in degrees C (or 68 F)", twice: true, Default: "20 C", Ask: "the degrees C, or F with the letter", Mistake: mistakeCelsius, About: "Batteries and meters read otherwise in the cold."},
		set: func(in *job.Intake, text string) error {
			lower := strings.ToLower(text)
			fahrenheit := strings.HasSuffix(lower, "f")
			number := strings.TrimSpace(strings.TrimRight(lower, "cf° "))
			v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
			if err != nil {
				return fmt.Errorf("write a temperature, for example 20 or 68 F")
			}
			if fahrenheit {
				v = (v - 32) / 1.8
			}
			if v < -40 || v > 60 {
				return fmt.Errorf("%s C can't be right on a bench; -40 to 60 is possible", trim(v))
			}
			in.Celsius = v
			return nil
		},
	}
}

// meters lists the meters, the usual one first: the shop's own before the others.
func (i *Intake) meters() []string {
	known := i.lib.MeterIDs()
	var own, rest []string
	for _, id := range i.owned {
		if slices.Contains(known, id) {
			own = append(own, id)
		}
	}
	for _, id := range known {
		if !slices.Contains(own, id) {
			rest = append(rest, id)
		}
	}
	return append(own, rest...)
}

func (i *Intake) askMeter() item {
	ids := i.meters()
	var choices []string
	for n, id := range ids {
		choices = append(choices, fmt.Sprintf("%d %s", n+1, i.lib.Meters[id].Title))
	}
	usual := ""
	if len(ids) > 0 {
		usual = i.lib.Meters[ids[0]].Title
	}
	return item{
		Question: Question{Title: "Which meter", Choices: choices, Default: usual, Mistake: mistakeMeter, About: "How exact it is decides how sure a reading near a limit is."},
		set: func(in *job.Intake, text string) error {
			id, err := among(ids, text)
			if err != nil {
				return err
			}
			in.Meter = i.lib.Instruments(id)
			return nil
		},
	}
}

func askWorth(currency string) item {
	ask := "the amount"
	if currency != "" {
		ask += ", in " + currency
	}
	return item{
		Question: Question{Title: "What is it worth, running (for the repair choice)", twice: true, Default: "not said", Ask: ask, Mistake: mistakeWorth, About: "Only to say what part of its worth a repair comes to."},
		set: func(in *job.Intake, text string) error {
			// A currency sign or code may stand by the amount.
			amount := strings.TrimFunc(text, func(r rune) bool { return r != '-' && (r < '0' || r > '9') })
			worth, err := decimal.NewFromString(strings.Replace(amount, ",", ".", 1))
			if err != nil || worth.IsNegative() || worth.GreaterThan(decimal.NewFromInt(1_000_000)) {
				return fmt.Errorf("write an amount, for example 180 or 180.50")
			}
			in.Worth = worth.String()
			return nil
		},
		unset: func(in *job.Intake) { in.Worth = "" },
	}
}
