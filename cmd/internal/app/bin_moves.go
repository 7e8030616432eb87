package app

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
)

// binAdd puts a piece into the bin that came off no machine of the record.
func (p *program) binAdd() *cobra.Command {
	var used repair.Used
	cmd := &cobra.Command{
		Use:   "add PART",
		Short: "Put a tested used part in that came without a job",
		Long: `Put a tested used part in that came without a job. PART is its id in the parts
files. What the trees ask to be shown on it must be among --shown: its number, a colon,
and what was read. Where a figure is asked, the reading has to reach it; what else
is asked is confirmed with "yes" first. Without them it says which.`,
		Example: `  benchlead bin add pack-starter --shown "1: yes, 9 A" --shown "2: yes" --asking 12.00 --place "shelf 2"`,
		Args:    exactly(1, "one part"),
		RunE: func(cmd *cobra.Command, args []string) error {
			b, shut, err := p.open(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			used.Part = args[0]
			piece, err := b.Prices.ToBin(b.Library, used)
			if err != nil {
				return fmt.Errorf("nothing was put in: %w", err)
			}
			name, err := b.Store.Shelve(cmd.Context(), piece, p.now())
			if err != nil {
				return err
			}
			fmt.Fprintf(p.streams.Out, "In the parts bin: piece %s, %s, %s %s. Write %s on it.\n", name, b.Library.Parts[piece.Part].Title, piece.Asking, piece.Currency, name)
			return nil
		},
	}
	cmd.Flags().StringArrayVar(&used.Shown, "shown", nil, "what was `read` on it; may be given several times")
	cmd.Flags().StringVar(&used.Asking, "asking", "", "the asking `price`, in the shop's currency")
	cmd.Flags().StringVar(&used.Place, "place", "", "`where` it lies")
	cmd.Flags().StringVar(&used.Words, "words", "", "`what` else tells it apart: teeth, side, length")
	return cmd
}

// binOut takes a piece out for good.
func (p *program) binOut() *cobra.Command {
	var sold, thrown string
	cmd := &cobra.Command{
		Use:     "out NAME",
		Short:   "Take a piece out for good: sold over the counter, or thrown away",
		Example: "  benchlead bin out b3 --sold \"over the counter, 20.00\"\n  benchlead bin out 14.9 --thrown \"dropped, housing cracked\"",
		Args:    exactly(1, "the name of one piece"),
		RunE: func(cmd *cobra.Command, args []string) error {
			gone, err := goneBy(sold, thrown)
			if err != nil {
				return err
			}
			gone.At = p.now()
			b, shut, err := p.openToRead(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			name := source.CleanLine(args[0])
			if err := b.Store.Discard(cmd.Context(), name, gone); err != nil {
				return err
			}
			fmt.Fprintf(p.streams.Out, "Out of the parts bin: piece %s, %s.\n", name, gone.How)
			return nil
		},
	}
	cmd.Flags().StringVar(&sold, "sold", "", "it was sold; to `whom`, or for how much")
	cmd.Flags().StringVar(&thrown, "thrown", "", "it was thrown away; `why`")
	return cmd
}

func goneBy(sold, thrown string) (job.Gone, error) {
	sold, thrown = strings.TrimSpace(source.CleanLine(sold)), strings.TrimSpace(source.CleanLine(thrown))
	switch {
	case (sold == "") == (thrown == ""):
		return job.Gone{}, usage{errors.New(`say how it went: either --sold "to whom" or --thrown "why"`)}
	case sold != "":
		return job.Gone{How: job.Sold, Why: sold}, nil
	}
	return job.Gone{How: job.Thrown, Why: thrown}, nil
}
