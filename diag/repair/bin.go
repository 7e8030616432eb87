package repair

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/money"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Used is a used part that is to lie in the parts bin, as it was typed.
type Used struct {
	Part   string // id
	Words  string
	Shown  []string // what was read on it; "2: 92 %" answers the part's second need asks
	Asking string   // price, in the shop's currency
	Place  string
}

// ToBin is what the bin keeps of a used part. The error says why such a part
// never lies there, what has to be shown on it first, or what is wrong with its
// price. A nil book asks in no currency.
func (b *PriceBook) ToBin(lib *tree.Library, u Used) (job.Binned, error) {
	part := lib.Parts[u.Part]
	if part == nil {
		return job.Binned{}, noPart(lib, u.Part)
	}
	out := job.Binned{
		Part: part.ID, Words: source.CleanLine(strings.TrimSpace(u.Words)), Shown: shown(part, u.Shown),
		Place: source.CleanLine(strings.TrimSpace(u.Place)),
	}
	if err := forBin(part, out.Shown); err != nil {
		return job.Binned{}, err
	}
	price, err := money.Parse(u.Asking)
	if err != nil {
		return job.Binned{}, fmt.Errorf("its asking price: %w", err)
	}
	out.Asking = money.Format(price, money.Cent)
	if b != nil {
		out.Asking, out.Currency = b.Shop.Format(price), b.Shop.Currency
	}
	return out, nil
}

func noPart(lib *tree.Library, id string) error {
	if near := nearestPart(lib, id); near != "" {
		return fmt.Errorf("no part is called %q; did you mean %q?", source.CleanLine(id), near)
	}
	return fmt.Errorf("no part is called %q; its id stands in the parts files", source.CleanLine(id))
}

// forBin says why a used piece may not lie in the bin with what was shown on it;
// nil when it may.
func forBin(part *tree.Part, shown []string) error {
	if part.NoBin != "" {
		return fmt.Errorf("%s never goes in the parts bin: %s", part.Title, part.NoBin)
	}
	if missing := NotShown(part, shown); len(missing) > 0 {
		return fmt.Errorf("%s may lie in the parts bin only with this shown on it: %s", part.Title, strings.Join(missing, "; "))
	}
	if len(shown) == 0 {
		return errors.New("say what was read on it; a piece lies in the parts bin with what was shown of it")
	}
	return nil
}

// shown turns what was typed into what is kept: the number of a need into its
// words. Nothing is kept twice.
func shown(part *tree.Part, typed []string) []string {
	var out []string
	for _, text := range typed {
		text = strings.TrimSpace(source.CleanLine(text))
		number, rest, _ := strings.Cut(text, ":")
		if n, err := strconv.Atoi(strings.TrimSpace(number)); err == nil && n >= 1 && n <= len(part.BinNeeds) {
			text = strings.TrimRight(part.BinNeeds[n-1], ".")
			if rest = strings.TrimSpace(rest); rest != "" {
				text += ": " + rest
			}
		}
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// ProvedGood is the evidence that a part is good: what cleared each of its
// faults. The error names the first fault of it that is found or not cleared, or
// says that nothing judges it. A part that a conversion took off was not proved
// by that.
func ProvedGood(sys *tree.System, v walk.Verdict, part *tree.Part) ([]walk.Evidence, error) {
	var out []walk.Evidence
	judged := false
	for _, f := range sys.Faults {
		if f.Part != part.ID {
			continue
		}
		judged = true
		i := slices.IndexFunc(v.Cleared, func(c walk.Clearing) bool { return c.Fault == f && !c.Removed })
		if i < 0 {
			return nil, fmt.Errorf("%s is not proved good: %s", tree.InSentence(part.Title), standing(v, f))
		}
		for _, e := range v.Cleared[i].Evidence {
			if !slices.ContainsFunc(out, func(had walk.Evidence) bool { return had.Test == e.Test }) {
				out = append(out, e)
			}
		}
	}
	if !judged {
		return nil, fmt.Errorf("%s is not proved good: no test of this machine judges it", tree.InSentence(part.Title))
	}
	return out, nil
}

func standing(v walk.Verdict, f *tree.Fault) string {
	if slices.ContainsFunc(v.Found, func(found walk.Finding) bool { return found.Fault == f }) {
		return "found: " + tree.InSentence(f.Title)
	}
	return "not cleared: " + tree.InSentence(f.Title)
}
