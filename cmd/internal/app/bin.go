package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/ui"
)

// binList is how the parts bin is listed.
type binList struct {
	all, asJSON bool
	words       string // every one of them must stand in a piece
}

func (p *program) binVerb() *cobra.Command {
	var list binList
	cmd := &cobra.Command{
		Use:   "bin",
		Short: "The parts bin: tested used parts, with what was read on them",
		Long: `The parts bin: tested used parts, with what was read on them, where they lie, and
what is asked for them. A job that needs such a part is offered it, and reserves it
when that repair is chosen. In a job the word "bin" puts a part in that came off.`,
		Example: "  benchlead bin\n  benchlead bin --all\n  benchlead bin find starter",
		Args:    exactly(0, "no arguments but find, add or out"),
		RunE:    func(cmd *cobra.Command, _ []string) error { return p.bin(cmd.Context(), list) },
	}
	list.flags(cmd)
	cmd.AddCommand(p.binFind(), p.binAdd(), p.binOut())
	return cmd
}

func (l *binList) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&l.all, "all", false, "also what was taken, sold or thrown away")
	cmd.Flags().BoolVar(&l.asJSON, "json", false, "print one JSON object")
}

func (p *program) binFind() *cobra.Command {
	var list binList
	cmd := &cobra.Command{
		Use:     "find WORDS",
		Short:   "List the pieces in which all of these words stand",
		Example: "  benchlead bin find starter\n  benchlead bin find shelf 2",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage{errors.New("find wants a word or more; see \"benchlead bin find --help\"")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			list.words = strings.Join(args, " ")
			return p.bin(cmd.Context(), list)
		},
	}
	list.flags(cmd)
	return cmd
}

// bin lists the parts bin, what is free first.
func (p *program) bin(ctx context.Context, l binList) error {
	b, shut, err := p.openToRead(ctx)
	if err != nil {
		return err
	}
	defer shut()
	pieces, err := b.Store.Bin(ctx)
	if err != nil {
		return err
	}
	pieces = slices.DeleteFunc(pieces, func(s job.Shelved) bool { return !l.all && !s.Free() || !stands(b, s, l.words) })
	slices.SortStableFunc(pieces, func(x, y job.Shelved) int { return order(x.Free()) - order(y.Free()) })
	if l.asJSON {
		return p.json(map[string]any{"pieces": shelved(b, pieces)})
	}
	for _, s := range pieces {
		for _, line := range pieceText(b, s) {
			fmt.Fprintln(p.streams.Out, source.CleanLine(line))
		}
	}
	if len(pieces) == 0 {
		fmt.Fprintln(p.streams.Out, l.nothing())
	}
	return nil
}

func order(free bool) int {
	if free {
		return 0
	}
	return 1
}

func (l *binList) nothing() string {
	if l.words != "" {
		return fmt.Sprintf("Nothing in the parts bin has %q in it.", source.CleanLine(l.words))
	}
	return "Nothing lies in the parts bin. \"benchlead bin add\" puts a piece in, and so does \"bin\" in a job."
}

// stands says whether every word stands somewhere in a piece.
func stands(b ui.Bench, s job.Shelved, words string) bool {
	text := strings.ToLower(strings.Join(append([]string{s.Name, s.Part, partTitle(b, s), s.Words, s.Place}, s.Shown...), "\n"))
	for _, word := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

func partTitle(b ui.Bench, s job.Shelved) string {
	if part := b.Library.Parts[s.Part]; part != nil {
		return part.Title
	}
	return s.Part
}

// pieceText is a piece in two lines or three, sentences as they are also heard: what it is
// and costs, what was read on it and where it lies, and why it is not offered.
func pieceText(b ui.Bench, s job.Shelved) []string {
	head := fmt.Sprintf("Piece %s: %s, %s.", s.Name, joined(", ", partTitle(b, s), s.Words), strings.TrimSpace(s.Asking+" "+s.Currency))
	since := "in since " + day(s.At)
	if s.Job != 0 {
		since += fmt.Sprintf(" from job %d", s.Job)
	}
	switch {
	case s.Drawn != 0:
		since += fmt.Sprintf("; taken for job %d", s.Drawn)
	case s.Gone.How != "":
		since += fmt.Sprintf("; %s %s: %s", s.Gone.How, day(s.Gone.At), s.Gone.Why)
	}
	out := []string{head, "   " + joined("; ", strings.Join(s.Shown, "; "), s.Place, since) + "."}
	if err := b.Prices.NotOffered(b.Library, s); s.Free() && err != nil {
		out = append(out, "   Not offered: "+err.Error()+".")
	}
	return out
}

func joined(by string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), by)
}

// day is a day as the log has it: at is microseconds since 1970 UTC.
func day(at int64) string { return time.UnixMicro(at).UTC().Format(time.DateOnly) }

// listedPiece is one piece as --json prints it. Times are RFC 3339, UTC.
type listedPiece struct {
	Name     string   `json:"name"`
	Part     string   `json:"part"`
	Title    string   `json:"title"`
	Words    string   `json:"words"`
	Shown    []string `json:"shown"`
	Asking   string   `json:"asking"`
	Currency string   `json:"currency"`
	Place    string   `json:"place"`
	Job      int64    `json:"job"` // off the machine of this job; 0: without one
	Since    string   `json:"since"`
	Free     bool     `json:"free"`
	Offered  bool     `json:"offered"`
	Drawn    int64    `json:"drawn"` // the job that took it; 0: none
	Gone     string   `json:"gone"`  // sold, thrown away, or empty
	Why      string   `json:"why"`
}

func shelved(b ui.Bench, pieces []job.Shelved) []listedPiece {
	out := []listedPiece{}
	for _, s := range pieces {
		out = append(out, listedPiece{
			Name: s.Name, Part: s.Part, Title: partTitle(b, s), Words: s.Words, Shown: append([]string{}, s.Shown...),
			Asking: s.Asking, Currency: s.Currency, Place: s.Place, Job: s.Job, Since: stamp(s.At), Free: s.Free(),
			Offered: s.Free() && b.Prices.NotOffered(b.Library, s) == nil, Drawn: s.Drawn, Gone: string(s.Gone.How), Why: s.Gone.Why,
		})
	}
	return out
}
