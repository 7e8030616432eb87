package record

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

func TestPick(t *testing.T) {
	card := func(id, opened int64, marks ...string) Card {
		return Card{Summary: job.Summary{ID: id, OpenedAt: opened}, Marks: marks}
	}
	cards := []Card{
		card(1, 30, "grey", "mower", "/fault/cable.ground"),
		card(2, 10, "green", "mower"),
		card(3, 20, "groundhog", "/outcome/open"),
		card(4, 20, "machine", "/machine/pump"),
	}
	begins := func(words ...string) Any { return Any{Begins: words} }
	is := func(marks ...string) Any { return Any{Is: marks} }
	for _, c := range []struct {
		name string
		q    Query
		ids  []int64
		more int
	}{
		{"everything, the newest first", Query{Most: 9}, []int64{1, 4, 3, 2}, 0},
		{"as many as are asked for", Query{Most: 1}, []int64{1}, 3},
		{"none is asked for", Query{}, nil, 4},
		{"by its beginning", Query{All: []Any{begins("gr")}, Most: 9}, []int64{1, 3, 2}, 0},
		{"all words", Query{All: []Any{begins("mow"), begins("gree")}, Most: 9}, []int64{2}, 0},
		{"not in the middle", Query{All: []Any{begins("ower")}, Most: 9}, nil, 0},
		{"a word or a fault", Query{All: []Any{{Begins: []string{"ground"}, Is: []string{"/fault/cable.ground"}}}, Most: 9}, []int64{1, 3}, 0},
		{"a fault is meant whole", Query{All: []Any{is("/fault/cable")}, Most: 9}, nil, 0},
		{"one of several", Query{All: []Any{is("/outcome/open", "/machine/pump")}, Most: 9}, []int64{4, 3}, 0},
		{"a word is no kind", Query{All: []Any{begins("fault")}, Most: 9}, nil, 0},
		{"from, included", Query{From: 20, Most: 9}, []int64{1, 4, 3}, 0},
		{"to, not included", Query{To: 20, Most: 9}, []int64{2}, 0},
		{"a condition of nothing", Query{All: []Any{{}}, Most: 9}, nil, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := c.q.Pick(cards)
			var ids []int64
			for _, card := range a.Cards {
				ids = append(ids, card.ID)
			}
			require.Equal(t, c.ids, ids)
			require.Equal(t, c.more, a.More)
		})
	}
}

func TestManyMoreAreNotCounted(t *testing.T) {
	require.Equal(t, ManyMore, Query{Most: 2}.Pick(make([]Card, ManyMore+3)).More)
	require.Equal(t, ManyMore-1, Query{Most: 2}.Pick(make([]Card, ManyMore+1)).More)
}
