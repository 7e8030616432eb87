package recorddb

import (
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/record"
)

// jobsEnv is how large the largest record of the benchmarks is; 10,000 jobs unless
// set. A hundred thousand take half a minute to make.
const jobsEnv = "BENCHLEAD_BENCH_JOBS"

func sizes(b *testing.B) []int {
	most := 10_000
	if text := os.Getenv(jobsEnv); text != "" {
		var err error
		most, err = strconv.Atoi(text)
		require.NoError(b, err)
	}
	return slices.DeleteFunc([]int{1_000, 10_000, 100_000}, func(n int) bool { return n > most })
}

// What invented jobs are made of. A word that comes earlier in its list is
// commoner.
var (
	machines = words("mower tiller pump blower chipper sprayer splitter generator edger saw compressor winch auger trencher washer mixer roller sweeper shredder hoist")
	looks    = words("grey green orange old rusty yellow new heavy small big blue red")
	owners   = words("ticket allotment orchard nursery parish school neighbour farm garden club ferry brewery")
	says     = words("starts turns slowly click dead battery flat season stood washed smoke belt key spark rope fuel whirrs hums nothing cold hot rain")
	noted    = words("corroded eyelet loose green cable frame paint rubbed wire nut missing gasket melted plug rodent nest bent bracket swollen acid")
	systems  = words("key-start-12v button-start-pack magneto flywheel-charging small-diesel generator mains-starter")
)

func words(list string) []string { return strings.Fields(list) }

// invented draws jobs.
type invented struct{ *rand.Rand }

// of draws from a list, the earlier ones more often.
func (r invented) of(list []string) string {
	return list[int(float64(len(list))*r.Float64()*r.Float64())]
}

func (r invented) some(n int, list []string) string {
	out := make([]string, n)
	for i := range out {
		out[i] = r.of(list)
	}
	return strings.Join(out, " ")
}

// life is one whole job with ten readings: as a rule closed, with a fault, a
// repair and a note.
func (r invented) life(at int64) []job.Event {
	at += r.Int64N(3_600_000_000)
	fault, repair := fmt.Sprintf("part%d.bad", int(60*r.Float64()*r.Float64())), ""
	repair = "replace-" + fault
	none, found := []string{}, []string{fault}
	log := []job.Event{{Kind: job.KindIntake, Intake: &job.Intake{
		System: r.of(systems), Complaint: "c" + strconv.Itoa(r.IntN(6)),
		Machine: r.some(2, looks) + " " + r.of(machines) + " " + strconv.Itoa(r.IntN(500)),
		Owner:   r.of(owners) + " " + strconv.Itoa(r.IntN(3000)), Words: r.some(6, says),
		Label: map[string]float64{"battery_volts": 12}, Celsius: 20, Meter: measure.Meter{ID: "pocket"}, Digest: "d",
	}}}
	for i := range 10 {
		v := float64(r.IntN(1400)) / 100
		log = append(log, job.Event{Kind: job.KindRead, Read: &job.Read{Test: "test" + strconv.Itoa(i), Reading: measure.Reading{
			Function: measure.DCVolts, Kind: measure.Number, Value: v, Step: 0.01, Text: strconv.FormatFloat(v, 'f', 2, 64),
		}}})
	}
	log[10].Shown = &found
	log = append(log,
		job.Event{Kind: job.KindNoted, Noted: &job.Noted{Text: r.some(8, noted)}},
		job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{
			Path: "repair", Repairs: []string{repair}, Lines: []job.QuoteLine{{Part: "part" + strconv.Itoa(r.IntN(80)), Grade: "original", Qty: 1, Each: "12.00"}},
			Quote: job.Quote{Currency: "EUR", Parts: "12.00", Labour: "20.00", Tax: "6.40", Total: "38.40", Minutes: 25},
		}},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: repair}, Shown: &none})
	if r.IntN(20) > 0 {
		log = append(log, job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Proved, Verdict: "one fault"}})
	}
	for i := range log {
		log[i].Seq, log[i].At = int64(i)+1, at+int64(i)*120_000_000
	}
	return log
}

// drawn is how many jobs are drawn; a larger record repeats them, so that a rare
// word is in ten jobs of a hundred thousand.
const drawn = 10_000

// filled makes a record of so many jobs, one each half hour, without the care that
// one in use needs: what is made here can be made again.
func filled(tb testing.TB, jobs int) *DB {
	tb.Helper()
	db, err := Open(tb.Context(), filepath.Join(tb.TempDir(), "record.db"))
	require.NoError(tb, err)
	tb.Cleanup(func() { _ = db.Close() })
	run := func(statement string, args ...any) {
		_, err := db.sql.ExecContext(tb.Context(), statement, args...)
		require.NoError(tb, err, statement)
	}
	for _, s := range []string{
		"pragma journal_mode = off", "pragma synchronous = off", "pragma foreign_keys = off", "pragma cache_size = -100000",
		"drop index marks_mark", "drop index events_kind", "drop index cards_outcome",
	} {
		run(s)
	}
	r := invented{rand.New(rand.NewPCG(6, 1))}
	const halfHour = 1_800_000_000
	err = db.within(tb.Context(), nil, "filling", func(tx *sql.Tx) error {
		for id := range int64(min(jobs, drawn)) {
			if _, err := tx.ExecContext(tb.Context(), "insert into jobs (id) values ($1)", id+1); err != nil {
				return err
			}
			if err := insert(tb.Context(), tx, id+1, r.life(1_600_000_000_000_000+id*halfHour)); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(tb, err)
	for at := drawn; at < jobs; at += drawn {
		run("insert into jobs (id) select id + $1 from jobs where id <= $2", at, drawn)
		run("insert into events select job + $1, seq, at, kind, body from events where job <= $2", at, drawn)
		run(`insert into cards select job + $1, opened + $2, last + $2, ended, outcome, system, complaint, machine, owner, words,
			found, came, faults, repairs, parts, quoted, spent, marks from cards where job <= $3`, at, at*halfHour, drawn)
		run("insert into marks select mark, job + $1 from marks where job <= $2", at, drawn)
	}
	for _, s := range []string{
		"create index marks_mark on marks (mark, job)", "create index events_kind on events (kind, job)",
		"create index cards_outcome on cards (outcome, opened)", "pragma journal_mode = wal", "pragma cache_size = -2000",
	} {
		run(s)
	}
	return db
}

// asked are questions as a bench asks them: common words and rare ones, alone and
// together, with and without a fault, a part, a month.
func asked(r invented, jobs int) record.Query {
	begins := func(w string) record.Any { return record.Any{Begins: []string{w[:min(len(w), 3+r.IntN(5))]}} }
	is := func(kind, id string) record.Any { return record.Any{Is: []string{record.Mark(kind, id)}} }
	q := record.Query{Most: 20}
	for range 1 + r.IntN(3) {
		q.All = append(q.All, begins(r.of([][]string{machines, looks, owners, says, noted}[r.IntN(5)])))
	}
	switch r.IntN(5) {
	case 0:
		q.All = append(q.All, is(record.OfFault, fmt.Sprintf("part%d.bad", r.IntN(60))))
	case 1:
		q.All = append(q.All, is(record.OfPart, "part"+strconv.Itoa(r.IntN(80))))
	case 2:
		q.From = 1_600_000_000_000_000 + r.Int64N(int64(jobs))*1_800_000_000
		q.To = q.From + 30*24*3_600_000_000
	case 3:
		q.All = append(q.All, is(record.OfOutcome, record.StillOpen))
	}
	return q
}

func BenchmarkSearch(b *testing.B) {
	for _, jobs := range sizes(b) {
		from := time.Now()
		db := filled(b, jobs)
		b.Logf("%d jobs made in %v", jobs, time.Since(from).Round(time.Millisecond))
		b.Run(strconv.Itoa(jobs), func(b *testing.B) {
			r := invented{rand.New(rand.NewPCG(7, 1))}
			measured(b, func() {
				_, err := db.Search(b.Context(), asked(r, jobs))
				require.NoError(b, err)
			})
		})
		b.Run(strconv.Itoa(jobs)+"/list-newest", func(b *testing.B) {
			measured(b, func() {
				_, _, err := db.Newest(b.Context(), 500)
				require.NoError(b, err)
			})
		})
		b.Run(strconv.Itoa(jobs)+"/list-all", func(b *testing.B) {
			measured(b, func() {
				_, err := db.Jobs(b.Context())
				require.NoError(b, err)
			})
		})
		b.Run(strconv.Itoa(jobs)+"/one-answer", func(b *testing.B) {
			id, err := db.Create(b.Context(), r0.life(0)[:1])
			require.NoError(b, err)
			last := int64(1)
			measured(b, func() {
				got, err := db.Append(b.Context(), id, last, r0.life(0)[1:2])
				require.NoError(b, err)
				last = got[0].Seq
			})
		})
	}
}

var r0 = invented{rand.New(rand.NewPCG(8, 1))}

// measured runs do and reports the median and the slowest of a hundred.
func measured(b *testing.B, do func()) {
	var took []time.Duration
	for b.Loop() {
		from := time.Now()
		do()
		took = append(took, time.Since(from))
	}
	slices.Sort(took)
	ms := func(at float64) float64 { return float64(took[int(at*float64(len(took)-1))].Microseconds()) / 1000 }
	b.ReportMetric(ms(0.5), "ms-p50")
	b.ReportMetric(ms(0.99), "ms-p99")
}
