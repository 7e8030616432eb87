package record

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/source"
)

// written is an export of jobs.
func written(t testing.TB, logs ...Log) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, func(take func(Log) error) error {
		for _, l := range logs {
			if err := take(l); err != nil {
				return err
			}
		}
		return nil
	}))
	return out.String()
}

// readAll reads an export through.
func readAll(text string) ([]Log, *Reader) {
	r := NewReader(strings.NewReader(text))
	var logs []Log
	for l, ok := r.Next(); ok; l, ok = r.Next() {
		l.Spot = 0
		logs = append(logs, l)
	}
	return logs, r
}

func TestAnExportComesBackAsItWas(t *testing.T) {
	short := logOf(jobtest.Intake(), note(`quoted "\ and µ Ω 漢字 👩🏽‍🔧`+"\nsecond line"), undo(2))
	for name, logs := range map[string][]Log{
		"no job":  nil,
		"one":     {{Job: 12, Events: jobtest.Life()}},
		"several": {{Job: 3, Events: jobtest.Life()}, {Job: 1, Events: short}, {Job: 9, Events: short[:1]}},
	} {
		t.Run(name, func(t *testing.T) {
			text := written(t, logs...)
			got, r := readAll(text)
			require.Empty(t, r.Problems)
			require.Equal(t, logs, got)
			require.Equal(t, text, written(t, got...))
		})
	}
}

// Whoever lays the file out anew, or writes its numbers and characters in another
// way, changes nothing.
func TestTheSameInOtherWords(t *testing.T) {
	log := logOf(jobtest.Intake(), jobtest.Volts("pack_rest", 100, "100 µ"))
	text := written(t, Log{Job: 2, Events: log})
	other := strings.NewReplacer(
		`"value":`, "\n\t\"value\" :  ", `100,`, `1e2,`, "µ", `\u00b5`, `"seq":2,"at":`, `"at":`, `,"kind":"read"`, `,"kind":"read","seq":2`,
	).Replace(strings.ReplaceAll(text, `"Value":`, `"Value": `))
	require.NotEqual(t, text, other)
	got, r := readAll(other)
	require.Empty(t, r.Problems)
	require.Equal(t, []Log{{Job: 2, Events: log}}, got)
}

func TestNumberedAnew(t *testing.T) {
	log := jobtest.LifeOf(3)
	log[14].Chosen.Lines = []job.QuoteLine{{Part: "coil", Piece: "3.7"}, {Part: "cable", Piece: "8.2"}, {Part: "fuse"}, {Part: "x", Piece: "3"}, {Part: "y", Piece: "x.3"}}
	Renumber(log, map[int64]int64{3: 41, 8: 42})
	var pieces []string
	for _, l := range log[14].Chosen.Lines {
		pieces = append(pieces, l.Piece)
	}
	require.Equal(t, []string{"41.7", "42.2", "", "3", "x.3"}, pieces)
	for _, e := range log {
		if e.Drawn != nil {
			require.Equal(t, "41.21", e.Drawn.Piece)
		}
	}
	untouched := jobtest.Life()
	Renumber(untouched, map[int64]int64{4: 41})
	require.Equal(t, jobtest.Life(), untouched)
}

func TestExtends(t *testing.T) {
	life := jobtest.Life()
	require.True(t, Extends(life, life))
	require.True(t, Extends(life, life[:3]))
	require.False(t, Extends(life[:3], life))
	other := jobtest.Life()
	other[4].Seen.Text = "x"
	require.False(t, Extends(life, other[:6]))
	require.True(t, Extends(life, other[:4]))
}

// hostile puts one thing wrong into an export of two jobs. Its lines: 1 the
// bracket, 2 format, 3 version, 4 jobs, 5 job 3, 6 to 8 its events, 9 the end of it,
// 10 job 4, 11 its event.
func hostile(t *testing.T, from, to string) string {
	t.Helper()
	text := written(t,
		Log{Job: 3, Events: logOf(jobtest.Intake(), jobtest.Volts("pack_rest", 12.6, "12.6"), note("smells of fuel"))},
		Log{Job: 4, Events: logOf(jobtest.Intake())})
	require.Contains(t, text, from)
	return strings.Replace(text, from, to, 1)
}

func TestHostileExports(t *testing.T) {
	smells := `"noted":{"text":"smells of fuel"}`
	for _, c := range []struct {
		name, from, to string
		at             string // what stands at the place that is named; "" is the end
		says           string
	}{
		{"another file", `"benchlead record"`, `"shopping list"`, `"shopping list"`, "no export"},
		{"no object", "{\n\"format\"", "[\n\"format\"", "[\n\"format\"", `"{" belongs here`},
		{"another order", `"format": "benchlead record",`, ``, `"version"`, `"format" belongs here`},
		{"a newer version", `"version": 1`, `"version": 2`, "2,\n", "its version is 2, this program reads 1"},
		{"a version in words", `"version": 1`, `"version": "one"`, `"one"`, "update the program"},
		{"cut off in an event", smells, "\x00cut", "", "ends in the middle"},
		{"cut off behind a job", "]},\n{\"job\": 4", "\x00cut", "", "ends in the middle"},
		{"more behind it", "]\n}\n", "]\n}\n{}", "{}", "more after the end"},
		{"a comma too many", "]}\n]\n}", "]},\n]\n}", "]\n}\n", "it is no JSON"},
		{"a comma too few", "}},\n{\"seq\":3", "}}\n{\"seq\":3", `{"seq":3`, "it is no JSON"},
		{"no value", `{"text":"smells of fuel"}`, `{"text":}`, "}}\n]},\n", "it is no JSON: invalid character '}'"},
		{"deep", `{"text":"smells of fuel"}`, strings.Repeat("[", 100_000), strings.Repeat("[", 90_001), "depth"}, // ten thousand are read, the event itself among them
		{"a bit deep", `"smells of fuel"`, strings.Repeat("[", 500) + strings.Repeat("]", 500), strings.Repeat("[", 500), "can't be: array"},
		{"deep where nothing belongs", smells, smells + `,"x":` + strings.Repeat("[", 500) + strings.Repeat("]", 500), `"x"`, "x would not be kept"},
		{"not UTF-8", "smells", "sm\xffells", "\xff", "not UTF-8"},
		{"half a character", "smells", `\ud800`, `"\ud800`, "half a character"},
		{"a terminal's escape", "smells", `\u001b[2J`, `"\u001b`, "steer a terminal"},
		{"an escape as it is", "smells", "\x1b[2J", "\x1b", "it is no JSON"},
		{"text that turns round", "smells", "\u202esmells", "\"\u202e", "steer a terminal, or hide"},
		{"a tab", "smells", `\tsmells`, `"\tsmells`, "steer a terminal"},
		{"a name with an escape", `{"cells":3`, `{"ce\u001blls":3`, `"ce\u001blls"`, "a name in intake.label"},
		{"a huge number", `"Value":12.6`, `"Value":1e999`, `1e999`, "can't be: number 1e999"},
		{"a number with thousands of digits", `"Value":12.6`, `"Value":1` + strings.Repeat("0", 5000), "1" + strings.Repeat("0", 5000), "can't be: number 1000"},
		{"a whole number that is none", `"seq":3`, `"seq":3.5`, `3.5`, "seq can't be: number 3.5"},
		{"a number for ever", `"seq":3`, `"seq":99999999999999999999`, `99999999999999999999`, "seq can't be: number"},
		{"text where a number belongs", `"seq":3`, `"seq":"3"`, `"3"`, "seq can't be: string"},
		{"out of order", `"seq":3`, `"seq":4`, `{"seq":4`, "its number is 4, and it stands where event 3 belongs"},
		{"a field that is not known", smells, smells + `,"weight":3`, `"weight"`, "weight would not be kept"},
		{"a field twice", `"kind":"noted"`, `"kind":"noted","kind":"noted"`, `"kind":"noted","noted":{`, "kind is there twice"},
		{"a field in other letters", `"kind":"noted"`, `"KIND":"noted"`, `"KIND"`, "KIND would not be kept"},
		{"an empty field too many", smells, smells + `,"read":null`, `"read":null`, "read would not be kept"},
		{"two payloads", smells, smells + `,"done":{"work":"w"}`, `{"seq":3`, "it holds done and noted where it should hold noted"},
		{"a kind of event that is not known", `"kind":"noted",` + smells, `"kind":"weighed"`, `{"seq":3`, "newer benchlead"},
		{"an event that is a number", `{"seq":3,"at":1700000120000000,"kind":"noted",` + smells + `}`, `17`, "17\n", "an event can't be: number"},
		{"an event that is nothing", `{"seq":3,"at":1700000120000000,"kind":"noted",` + smells + `}`, `null`, "null\n", "an event is an object"},
		{"an event in a list", `{"seq":3,"at":1700000120000000,"kind":"noted",` + smells + `}`, `[1]`, "[1]", "an event can't be: array"},
		{"a second intake", `"kind":"noted",` + smells, `"kind":"intake","intake":{"system":"s","complaint":"c","celsius":0,"meter":{"ID":"","Title":"","Scales":null},"digest":""}`, `{"seq":3`, "the intake is the first event"},
		{"takes back what can't be", `"kind":"noted",` + smells, `"kind":"undone","undone":{"of":1}`, `{"seq":3`, "can never be taken back"},
		{"takes back the future", `"kind":"noted",` + smells, `"kind":"undone","undone":{"of":9}`, `{"seq":3`, "which is not an earlier one"},
		{"an empty id", `"test":"pack_rest"`, `"test":""`, `{"seq":2`, "its test is empty"},
		{"money that is none", `"kind":"noted",` + smells, `"kind":"chosen","chosen":{"path":"repair","repairs":[],"quote":{"currency":"EUR","parts":"NaN","labour":"10.00","tax":"14.00","total":"84.00","minutes":1}}`, `{"seq":3`, `its parts is "NaN", which is no amount`},
		{"a total that is none", `"kind":"noted",` + smells, `"kind":"chosen","chosen":{"path":"repair","repairs":[],"quote":{"currency":"EUR","parts":"60.00","labour":"10.00","tax":"14.00","total":"Infinity","minutes":1}}`, `{"seq":3`, `its total is "Infinity"`},
		{"money that does not add up", `"kind":"noted",` + smells, `"kind":"chosen","chosen":{"path":"repair","repairs":[],"quote":{"currency":"EUR","parts":"60.00","labour":"10.00","tax":"14.00","total":"84.01","minutes":1}}`, `{"seq":3`, "are 84 together, its total is 84.01"},
		{"another line left out", `"kind":"noted",` + smells, `"kind":"chosen","chosen":{"path":"repair","repairs":[],"quote":{"currency":"EUR","parts":"60.00","labour":"10.00","other":"1.50","tax":"14.00","total":"84.00","minutes":1}}`, `{"seq":3`, "are 85.5 together"},
		{"no total", `"kind":"noted",` + smells, `"kind":"chosen","chosen":{"path":"repair","repairs":[],"quote":{"currency":"EUR","parts":"60.00","labour":"","tax":"","total":"","minutes":1}}`, `{"seq":3`, "its total is 0"},
		{"an approval of nothing", `"kind":"noted",` + smells, `"kind":"asked","asked":{"approved":true,"who":"x","total":"84.00","ceiling":"NaN","currency":"EUR"}`, `{"seq":3`, `its ceiling is "NaN"`},
		{"an empty log", `{"job": 4, "events": [`, "{\"job\": 5, \"events\": []},\n{\"job\": 4, \"events\": [", `5, "events"`, "there is no event at all"},
		{"a number of a job twice", `{"job": 4`, `{"job": 3`, `3, "events": [
{"seq":1,"at":1700000000000000,"kind":"intake","intake":{"system":"button-start-pack","complaint":"silent","machine"`, "twice"},
		{"no number of a job", `{"job": 4`, `{"job": 0`, `0, "events"`, "whole number from 1"},
		{"a number of a job in words", `{"job": 4`, `{"job": "4"`, `"4"`, "whole number from 1"},
		{"events that are none", `"events": [`, `"events": {`, "{\n{\"seq\":1", `"[" belongs here`},
		{"the wrong name", `{"job": 4, "events"`, `{"job": 4, "readings"`, `"readings"`, `"events" belongs here`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := hostile(t, c.from, c.to)
			text, _, _ = strings.Cut(text, "\x00cut")
			_, r := readAll(text)
			require.NotEmpty(t, r.Problems)
			issues, err := Issues("jobs.json", strings.NewReader(text), r.Problems)
			require.NoError(t, err)
			require.Contains(t, issues[0].Message, c.says)
			require.NotContains(t, issues.Error(), "\x1b")
			require.Equal(t, "jobs.json:"+lineAndColumn(t, text, c.at), issues[0].Place.String())
		})
	}
}

// lineAndColumn is where a piece of a text stands: the last one of its kind, or,
// for "", the end.
func lineAndColumn(t *testing.T, text, piece string) string {
	t.Helper()
	at := strings.LastIndex(text, piece)
	require.GreaterOrEqual(t, at, 0, piece)
	line := text[strings.LastIndex(text[:at], "\n")+1 : at]
	return fmt.Sprintf("%d:%d", 1+strings.Count(text[:at], "\n"), 1+utf8.RuneCountInString(line))
}

func TestNamesTheJobAndTheEvent(t *testing.T) {
	_, r := readAll(hostile(t, `"test":"pack_rest"`, `"test":""`))
	require.EqualError(t, r.Problems[0], `job 3, event 2: its test is empty`)
	_, r = readAll(hostile(t, `{"job": 4`, `{"job": 3`))
	require.ErrorContains(t, r.Problems[0], `job 3: the number is there twice`)
}

// One wrong event doesn't hide the next, nor the next job.
func TestEveryProblemIsTold(t *testing.T) {
	text := hostile(t, `"test":"pack_rest"`, `"test":""`)
	text = strings.Replace(text, `"text":"smells of fuel"`, `"text":" "`, 1)
	at := strings.LastIndex(text, `"system":"button-start-pack"`)
	text = text[:at] + `"system":""` + text[at+len(`"system":"button-start-pack"`):]
	logs, r := readAll(text)
	require.Empty(t, logs)
	var says []string
	for _, p := range r.Problems {
		says = append(says, p.Error())
	}
	require.Equal(t, []string{
		"job 3, event 2: its test is empty", "job 3, event 3: its text is empty", "job 4, event 1: its system is empty",
	}, says)
}

func TestNotAllOfAThousandProblemsAreTold(t *testing.T) {
	log := []job.Event{jobtest.Intake()}
	for range 1000 {
		log = append(log, note("x"))
	}
	text := strings.ReplaceAll(written(t, Log{Job: 1, Events: logOf(log...)}), `"text":"x"`, `"text":""`)
	_, r := readAll(text)
	require.Len(t, r.Problems, mostProblems)
}

func TestBounds(t *testing.T) {
	long := written(t, Log{Job: 1, Events: logOf(jobtest.Intake(), note(strings.Repeat("x", mostEvent)))})
	_, r := readAll(long)
	require.Len(t, r.Problems, 1)
	require.ErrorContains(t, r.Problems[0], fmt.Sprintf("more than the %d", mostEvent))

	_, r = readAll(strings.Replace(long, "xxx", strings.Repeat("x", 3*ahead), 1))
	require.Len(t, r.Problems, 1)
	require.ErrorContains(t, r.Problems[0], "far too long")

	_, r = readAll("{" + strings.Repeat(" ", 3*ahead) + `"format"`)
	require.Len(t, r.Problems, 1)
	require.ErrorContains(t, r.Problems[0], "far too long")
}

// Whatever is in a file, reading it ends, and what is taken for sound can be written
// and read again.
func FuzzImport(f *testing.F) {
	life := written(f, Log{Job: 3, Events: jobtest.Life()}, Log{Job: 4, Events: logOf(jobtest.Intake(), note("x"))})
	f.Add(life)
	f.Add(strings.ReplaceAll(life, ":", " :\n"))
	f.Add(life[:len(life)/2])
	f.Add(`{"format": "benchlead record", "version": 1, "jobs": [{"job": 1, "events": [{"seq":1}]}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		logs, r := readAll(text)
		_, err := Issues("f", strings.NewReader(text), r.Problems)
		require.NoError(t, err)
		if len(r.Problems) > 0 {
			return
		}
		again, r := readAll(written(t, logs...))
		require.Empty(t, r.Problems)
		require.Equal(t, logs, again)
	})
}

// anyLog is a log of readings, notes and choices with any harmless text and any
// number that can be saved.
func anyLog(t *rapid.T) []job.Event {
	text := rapid.Map(rapid.StringN(0, 20, 60), func(s string) string { return "x" + source.Clean(s) })
	log := []job.Event{jobtest.Intake()}
	log[0].Intake.Machine, log[0].Intake.Owner = text.Draw(t, "machine"), text.Draw(t, "owner")
	for range rapid.IntRange(0, 6).Draw(t, "events") {
		log = append(log, rapid.OneOf(
			rapid.Map(text, jobtest.Note),
			rapid.Map(rapid.Float64(), func(v float64) job.Event { return jobtest.Volts("t", v, "t") }),
			rapid.Map(text, func(s string) job.Event { return showing(ticked(s), s, s+"2") }),
		).Draw(t, "event"))
	}
	return logOf(log...)
}

func TestEveryLogComesBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		logs := []Log{{Job: 2, Events: anyLog(rt)}, {Job: 1, Events: anyLog(rt)}}
		got, r := readAll(written(t, logs...))
		require.Empty(rt, r.Problems)
		require.Equal(rt, logs, got)
	})
}
