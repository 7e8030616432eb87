package recorddb

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/repair"
	place "benchlead/diag/source"
)

func amount(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// twoPrices are a line with everything, and one with as little as may be.
func twoPrices() []repair.Price {
	record := place.Place{File: "the record"}
	return []repair.Price{
		{
			Part: "starter", Grade: repair.Aftermarket, Supplier: "Nordtal Süd", Number: "NS-0042", Each: amount("84.1234"), Core: amount("25"),
			Freight: amount("6.5"), Disposal: amount("0.01"), Stock: 3, LeadDays: 5, Returnable: true, Date: "2026-03-31",
			ReplacedBy: "NS-0043", Set: "starter and drive", Note: "it's \"new\"; drop table prices", Place: record,
		},
		{Part: "fuse", Grade: repair.Bin, Each: decimal.Zero, Core: decimal.Zero, Freight: decimal.Zero, Disposal: decimal.Zero, Place: record},
	}
}

// put makes the book what is given.
func put(t *testing.T, db *DB, prices []repair.Price) {
	t.Helper()
	require.NoError(t, db.ChangePrices(t.Context(), func([]repair.Price) ([]repair.Price, error) { return prices, nil }))
}

func requirePrices(t *testing.T, want, got []repair.Price) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		for _, pair := range [][2]decimal.Decimal{{want[i].Each, got[i].Each}, {want[i].Core, got[i].Core}, {want[i].Freight, got[i].Freight}, {want[i].Disposal, got[i].Disposal}} {
			require.True(t, pair[0].Equal(pair[1]), "%s and %s", pair[0], pair[1])
		}
		g := got[i]
		g.Each, g.Core, g.Freight, g.Disposal = want[i].Each, want[i].Core, want[i].Freight, want[i].Disposal
		require.Equal(t, want[i], g)
	}
}

func TestPricesAreKept(t *testing.T) {
	path := fresh(t)
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	got, err := db.Prices(t.Context())
	require.NoError(t, err)
	require.Empty(t, got, "a new record has none")
	put(t, db, twoPrices())
	require.NoError(t, db.Close())

	db = openAt(t, path, soon)
	got, err = db.Prices(t.Context())
	require.NoError(t, err)
	requirePrices(t, twoPrices(), got)
	put(t, db, got[1:])
	got, err = db.Prices(t.Context())
	require.NoError(t, err)
	requirePrices(t, twoPrices()[1:], got)
}

// A change that fails half-way changes nothing, whoever is to blame.
func TestPricesChangeWholeOrNotAtAll(t *testing.T) {
	db := openAt(t, fresh(t), soon)
	put(t, db, twoPrices())
	own := errors.New("the caller thought better of it")
	err := db.ChangePrices(t.Context(), func(old []repair.Price) ([]repair.Price, error) {
		requirePrices(t, twoPrices(), old)
		return nil, own
	})
	require.ErrorIs(t, err, own)
	bad := append(twoPrices(), repair.Price{Part: "fuse", Grade: repair.Bin, Stock: -1})
	require.Error(t, db.ChangePrices(t.Context(), func([]repair.Price) ([]repair.Price, error) { return bad, nil }))
	got, err := db.Prices(t.Context())
	require.NoError(t, err)
	requirePrices(t, twoPrices(), got)
}

func TestPricesWaitForAnotherBench(t *testing.T) {
	path := fresh(t)
	db := openAt(t, path, soon)
	put(t, db, twoPrices())
	release := hold(t, path)
	err := db.ChangePrices(t.Context(), func(old []repair.Price) ([]repair.Price, error) { return old, nil })
	require.ErrorIs(t, err, job.ErrLocked)
	got, err := db.Prices(t.Context())
	require.NoError(t, err, "reading needs no lock")
	requirePrices(t, twoPrices(), got)
	release()
	put(t, db, twoPrices())
}

func TestPricesThatWereTamperedWith(t *testing.T) {
	for _, amount := range []string{"free", "-1", "1e", "NaN"} {
		db := openAt(t, fresh(t), soon)
		put(t, db, twoPrices())
		_, err := db.sql.ExecContext(t.Context(), "update prices set core = $1 where line = 2", amount)
		require.NoError(t, err)
		_, err = db.Prices(t.Context())
		require.ErrorIs(t, err, job.ErrDamaged, amount)
		require.ErrorContains(t, err, "line 2")
	}
}

// A record of the program before there were prices is brought up to date, and keeps
// its jobs.
func TestARecordWithoutPricesGetsTheTable(t *testing.T) {
	path := fresh(t)
	before := slices.IndexFunc(steps(), func(m migration) bool { return strings.HasSuffix(m.name, "_prices.sql") })
	db, err := open(t.Context(), path, soon, steps()[:before])
	require.NoError(t, err)
	_, err = db.Create(t.Context(), jobtest.Life())
	require.NoError(t, err)
	require.NoError(t, db.Close())
	db = openAt(t, path, soon)
	put(t, db, twoPrices())
	events, err := db.Load(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, jobtest.Life(), events)
	require.FileExists(t, fmt.Sprintf("%s.backup-%d", path, before))
}

// manyPrices are those of a large shop.
func manyPrices(n int) []repair.Price {
	out := make([]repair.Price, n)
	for i := range out {
		out[i] = twoPrices()[0]
		out[i].Number, out[i].Each = fmt.Sprintf("NS-%06d", i), decimal.New(int64(i), -2)
	}
	return out
}

func BenchmarkPrices(b *testing.B) {
	db, err := Open(b.Context(), b.TempDir()+"/record.db")
	require.NoError(b, err)
	defer db.Close() //nolint:errcheck // a benchmark
	all := manyPrices(10_000)
	b.Run("put in 10000", func(b *testing.B) {
		for b.Loop() {
			require.NoError(b, db.ChangePrices(b.Context(), func([]repair.Price) ([]repair.Price, error) { return all, nil }))
		}
	})
	b.Run("read 10000", func(b *testing.B) {
		for b.Loop() {
			_, err := db.Prices(b.Context())
			require.NoError(b, err)
		}
	})
}
