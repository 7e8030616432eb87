package report

import (
	"fmt"
	"strings"
)

// ledger is the bench copy's part about money, services and the parts bin: each
// entry of the record, with its figures as they were frozen.
func ledger(d Document) []section {
	var out []section
	for _, w := range d.paths() {
		out = append(out, quoted(w), settings(w))
	}
	out = append(out, answers(d), served(d), bins(d), promised(d))
	var full []section
	for _, s := range out {
		if len(s.Items)+len(s.Rows)+len(s.Says) > 0 {
			full = append(full, s)
		}
	}
	return full
}

// quoted are the parts of a quote, each on its line.
func quoted(w Work) section {
	s := section{Head: "Parts of the quote"}
	for _, l := range w.Parts {
		if l.Qty == 0 {
			continue // part and grade alone stand with the path
		}
		text := fmt.Sprintf("%d x %s, %s, %s each", l.Qty, l.Title, l.Grade, l.Each)
		if l.InHand {
			text += ", in hand"
		} else {
			text += ", to be ordered"
		}
		text = join(text, ", piece ", l.Piece)
		s.Items = append(s.Items, item{Text: join(text, "; ", l.Note)})
	}
	return s
}

// settings are the shop's, as the quote was worked out with them.
func settings(w Work) section {
	s := section{Head: "Settings behind the quote"}
	for _, set := range w.Shop {
		s.Rows = append(s.Rows, row{Name: sentenceStart(set.Name), Figure: set.Value})
	}
	if w.Aim != "" {
		s.Rows = append(s.Rows, row{Name: "Ranked by", Figure: w.Aim})
	}
	return s
}

func answers(d Document) section {
	s := section{Head: "The owner's answers"}
	for _, a := range d.Asked {
		i := item{Mark: markDone, Text: answer(a)}
		if !a.Approved {
			i.Mark = markOpen
		}
		for _, text := range a.Declined {
			i.More = append(i.More, "Not wanted: "+text)
		}
		s.Items = append(s.Items, i)
	}
	if d.Work != nil && d.Work.Above {
		s.Says = []string{"The repairs come to more than was approved. Ask again before more is done."}
	}
	return s
}

func served(d Document) section {
	s := section{Head: "Services"}
	for _, v := range d.Served {
		i := item{Mark: markDone, Text: v.Title}
		if v.Left {
			i = item{Mark: markOpen, Text: v.Title + ", left out"}
		}
		s.Items = append(s.Items, i)
	}
	return s
}

func bins(d Document) section {
	s := section{Head: "Parts bin"}
	for _, b := range d.Binned {
		text := join(join("In: "+b.Title+", piece "+b.Piece, ", ", b.Words), ", asking ", b.Asking)
		i := item{Text: join(text, ", at ", b.Place)}
		if len(b.Shown) > 0 {
			i.More = []string{"Shown: " + strings.Join(b.Shown, "; ")}
		}
		s.Items = append(s.Items, i)
	}
	for _, p := range d.Drawn {
		s.Items = append(s.Items, item{Text: "Out: " + p.Title + ", piece " + p.Piece})
	}
	return s
}

func promised(d Document) section {
	s := section{Head: "Warranty"}
	for _, w := range d.Warranty {
		s.Rows = append(s.Rows, row{Name: w.Title + ", " + w.Grade, Figure: counted(float64(w.Days), "day")})
	}
	return s
}
