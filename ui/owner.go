package ui

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// amountForm is how an amount is typed: 120, 120.50 or 120,50. 1,200 could be
// either of two.
var amountForm = regexp.MustCompile(`^\d{1,9}([.,]\d{1,2})?$`)

// approve records that the owner approves the work up to an amount.
func (s *Session) approve(ctx context.Context, a Action) (Reply, error) {
	p := s.Position()
	if p.Stage != walk.AtEstimate {
		return Reply{}, fmt.Errorf("there is no estimate to approve just now; nothing was recorded")
	}
	amount, rest, _ := strings.Cut(a.Text, " ")
	if !amountForm.MatchString(amount) {
		return Reply{}, fmt.Errorf("write the amount first, as 120 or 120.50, then who: approve %s Mrs. K, by telephone. Nothing was recorded", like(p.Estimate.Total, p.Estimate.Quote.Total))
	}
	asked, err := s.told(p, rest)
	if err != nil {
		return Reply{}, err
	}
	ceiling, err := decimal.NewFromString(strings.Replace(amount, ",", ".", 1))
	if err != nil {
		return Reply{}, err
	}
	asked.Approved, asked.Ceiling = true, like(ceiling, p.Estimate.Quote.Total)
	said := []string{approvedWords(asked)}
	if short := p.Estimate.Total.Sub(ceiling); p.Estimate.Known && short.IsPositive() {
		said = append(said, fmt.Sprintf("That is %s less than the estimate: choose another way, or ask again.", like(short, p.Estimate.Quote.Total)))
	}
	return Reply{Said: said}, s.record(ctx, job.Event{Kind: job.KindAsked, Asked: &asked})
}

// declined records that the owner does not want the work.
func (s *Session) declined(ctx context.Context, a Action) (Reply, error) {
	p := s.Position()
	if p.Stage != walk.AtEstimate {
		return Reply{}, fmt.Errorf("there is no estimate to decline just now; nothing was recorded")
	}
	asked, err := s.told(p, a.Text)
	if err != nil {
		return Reply{}, err
	}
	for _, id := range s.facts.Chosen.Repairs {
		asked.Declined = append(asked.Declined, s.testTitle(id))
	}
	said, err := s.move(ctx, job.Event{Kind: job.KindAsked, Asked: &asked})
	if err != nil {
		return Reply{}, err
	}
	return Reply{Said: append([]string{declinedWords(asked), "Choose another way, or close the job."}, said...)}, nil
}

// unasked passes the estimate over: the shop answers for itself, and why is kept.
func (s *Session) unasked(ctx context.Context, p walk.Position, why string) (Reply, error) {
	if utf8.RuneCountInString(why) < 2 || strings.EqualFold(why, string(Yes)) || strings.EqualFold(why, "no") { // meant for a key, or another question
		return Reply{}, fmt.Errorf("say why the owner is not asked, for example: pass the shop's own machine. Nothing was recorded")
	}
	asked, err := s.told(p, "the shop")
	if err != nil {
		return Reply{}, err
	}
	asked.Approved, asked.Ceiling, asked.How = true, asked.Total, why
	return Reply{Said: []string{"The owner is not asked: " + why + "."}}, s.record(ctx, job.Event{Kind: job.KindAsked, Asked: &asked})
}

// told is an answer to the estimate with who gave it. What stands behind a comma
// is how.
func (s *Session) told(p walk.Position, who string) (job.Asked, error) {
	q := p.Estimate.Quote
	who = strings.TrimSpace(who)
	if code, rest, _ := strings.Cut(who, " "); q.Currency != "" && strings.EqualFold(code, q.Currency) {
		who = strings.TrimSpace(rest)
	}
	who, how, _ := strings.Cut(who, ",")
	if strings.TrimSpace(who) == "" {
		return job.Asked{}, fmt.Errorf("write who said so, and how behind a comma: Mrs. K, by telephone. Nothing was recorded")
	}
	if who = strings.TrimSpace(who); who[0] >= '0' && who[0] <= '9' {
		return job.Asked{}, fmt.Errorf("%q begins with a number, as if it were another amount: write one amount, then who, as \"Mrs. K, job 20\". Nothing was recorded", who)
	}
	if utf8.RuneCountInString(who) < 2 {
		return job.Asked{}, fmt.Errorf("%q is no name: write who said so with at least two letters. Nothing was recorded", who)
	}
	total := q.Total
	if p.Estimate.Known {
		total = like(p.Estimate.Total, q.Total)
	}
	return job.Asked{Who: strings.TrimSpace(who), How: strings.TrimSpace(how), Total: total, Currency: q.Currency}, nil
}

func approvedWords(a job.Asked) string {
	return fmt.Sprintf("Approved up to %s by %s.", strings.TrimSpace(a.Ceiling+" "+a.Currency), whoWords(a))
}

func declinedWords(a job.Asked) string {
	return fmt.Sprintf("Declined by %s: %s, %s.", whoWords(a), cmp.Or(strings.Join(a.Declined, " + "), "the work"), strings.TrimSpace(a.Total+" "+a.Currency))
}

func whoWords(a job.Asked) string {
	if a.How == "" {
		return a.Who
	}
	return a.Who + ", " + a.How
}
