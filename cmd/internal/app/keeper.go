package app

import (
	"context"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/record"
)

// keeper is what a record does beyond keeping the logs of jobs.
type keeper interface {
	// Search looks for jobs.
	Search(ctx context.Context, q record.Query) (record.Answer, error)
	// Cards gives the card of every job by number, its marks left out.
	Cards(ctx context.Context, take func(record.Card) error) error
	// Each gives every job with all its events by number.
	Each(ctx context.Context, take func(record.Log) error) error
}

var _ keeper = (*recorddb.DB)(nil)

// keeperOf is the store itself where it can do that, otherwise the same by way of
// all logs: the demo has few.
func keeperOf(store job.Store) keeper {
	if k, ok := store.(keeper); ok {
		return k
	}
	return fromLogs{store}
}

// fromLogs is a keeper that reads every log each time.
type fromLogs struct{ job.Store }

// Search looks for jobs.
func (s fromLogs) Search(ctx context.Context, q record.Query) (record.Answer, error) {
	var cards []record.Card
	err := s.Cards(ctx, func(c record.Card) error {
		cards = append(cards, c)
		return nil
	})
	return q.Pick(cards), err
}

// Cards gives every card.
func (s fromLogs) Cards(ctx context.Context, take func(record.Card) error) error {
	return s.Each(ctx, func(l record.Log) error { return take(record.CardOf(l.Job, l.Events)) })
}

// Each gives every log.
func (s fromLogs) Each(ctx context.Context, take func(record.Log) error) error {
	jobs, err := s.Jobs(ctx)
	if err != nil {
		return err
	}
	for _, j := range jobs {
		events, err := s.Load(ctx, j.ID)
		if err != nil {
			return err
		}
		if err := take(record.Log{Job: j.ID, Events: events}); err != nil {
			return err
		}
	}
	return nil
}
