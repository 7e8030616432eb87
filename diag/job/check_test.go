package job_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/measure"
)

func TestEveryEventOfALifeIsWhole(t *testing.T) {
	kinds := map[job.Kind]bool{}
	for _, e := range jobtest.Life() {
		require.NoError(t, e.Check())
		kinds[e.Kind] = true
	}
	require.Len(t, kinds, 21, "the invented life has every kind of event")
}

func TestEventsThatAreNotWhole(t *testing.T) {
	intake := func(change func(*job.Intake)) job.Event {
		e := jobtest.Intake()
		change(e.Intake)
		return e
	}
	shown := []string{"x\xff"}
	for say, e := range map[string]job.Event{
		`it holds nothing where it should hold read`:           {Kind: job.KindRead},
		`it holds done where it should hold noted`:             {Kind: job.KindNoted, Done: &job.Done{Work: "w"}},
		`it holds noted and undone where it should hold noted`: {Kind: job.KindNoted, Noted: &job.Noted{Text: "x"}, Undone: &job.Undone{Seq: 1}},
		`it holds noted where it should hold nothing`:          {Kind: job.KindOpened, Noted: &job.Noted{Text: "x"}},
		`its kind is not known here`:                           {Kind: "weighed"},
		`its system is empty`:                                  intake(func(in *job.Intake) { in.System = "" }),
		`its complaint is empty`:                               intake(func(in *job.Intake) { in.Complaint = " " }),
		`Intake.Label.cells is NaN`:                            intake(func(in *job.Intake) { in.Label["cells"] = math.NaN() }),
		`a name in Intake.Label is not UTF-8`:                  intake(func(in *job.Intake) { in.Label["\xff"] = 1 }),
		`Intake.Meter.Scales[0].Percent is +Inf`:               intake(func(in *job.Intake) { in.Meter.Scales[0].Percent = math.Inf(1) }),
		`it confirms nothing`:                                  {Kind: job.KindSafe, Safe: &job.Safe{}},
		`its setting is empty`:                                 safe("fuel", ""),
		`its caution is empty`:                                 heeded("", "a"),
		`its test is empty`:                                    seen("", "x"),
		`its choice is empty`:                                  seen("a", ""),
		`its function is empty`:                                {Kind: job.KindRead, Read: &job.Read{Test: "a", Reading: measure.Reading{Kind: measure.Number}}},
		`sort of display "wobbles" is not known`:               {Kind: job.KindRead, Read: &job.Read{Test: "a", Reading: measure.Reading{Function: measure.Ohms, Kind: "wobbles"}}},
		`Read.Reading.Value is -Inf`:                           volts("a", math.Inf(-1)),
		`its work is empty`:                                    done(""),
		`empty id among its stales`:                            done("w", "a", ""),
		`either the test or the work`:                          {Kind: job.KindCant, Cant: &job.Cant{Test: "a", Work: "w"}},
		`not both and not neither`:                             {Kind: job.KindCant, Cant: &job.Cant{Why: "tired"}},
		`its text is empty`:                                    jobtest.Note("\n"),
		`the text of Noted.Text is not UTF-8`:                  jobtest.Note("\xc3"),
		`the text of Shown[0] is not UTF-8`:                    {Kind: job.KindNoted, Noted: &job.Noted{Text: "x"}, Shown: &shown},
		`its digest is empty`:                                  {Kind: job.KindTrees, Trees: &job.Trees{}},
		`its path is empty`:                                    {Kind: job.KindChosen, Chosen: &job.Chosen{}},
		`empty id among its repairs`:                           chosen(""),
		`its repair is empty`:                                  ticked(""),
		`events count from 1`:                                  undo(0),
		`the outcome "lost" is not one`:                        {Kind: job.KindClosed, Closed: &job.Closed{Outcome: "lost"}},
	} {
		require.ErrorContains(t, e.Check(), say)
		require.NotPanics(t, func() { _, _ = job.Fold([]job.Event{e}) })
	}
}

func TestEncodedAndBack(t *testing.T) {
	for _, e := range jobtest.Life() {
		line, err := job.Encode(e)
		require.NoError(t, err)
		require.NotContains(t, string(line), "\n")
		back, err := job.Decode(line)
		require.NoError(t, err)
		require.Equal(t, e, back)
	}
	_, err := job.Decode([]byte("{"))
	require.Error(t, err)
}

func TestEqualLogsHaveEqualBytes(t *testing.T) {
	life := jobtest.Life()
	require.Equal(t, job.Canonical(life), job.Canonical(jobtest.Life()))
	require.Equal(t, len(life), bytes.Count(job.Canonical(life), []byte("\n")))
	require.Equal(t,
		`{"seq":1,"at":0,"kind":"noted","noted":{"text":"<a & b>"}}`+"\n",
		string(job.Canonical(number(jobtest.Note("<a & b>")))))

	later := jobtest.Life()
	for i := range later {
		later[i].At += 5
	}
	require.NotEqual(t, job.Canonical(life), job.Canonical(later))
	require.Equal(t, job.Canonical(job.Timeless(life)), job.Canonical(job.Timeless(later)))
	require.Equal(t, life[1].At+5, later[1].At, "the log itself keeps its times")

	other := jobtest.Life()
	other[2].Read.Reading.Text = ".37"
	require.NotEqual(t, job.Canonical(life), job.Canonical(other), "raw text counts")
	require.Contains(t, string(job.Canonical([]job.Event{volts("a", math.NaN())})), "NaN")
}
