package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

const hostile = "=cmd|'/c calc'!A1\x1b]0;x\x07\x1b[2J\u202e<script>alert(1)</script>\u0085\"onload=x"

// hostileLamp puts hostile text wherever a person may type some.
func hostileLamp(t *testing.T) Document {
	t.Helper()
	lib := lamp(t)
	events := repairedLamp(t, lib)
	in := *events[0].Intake
	in.Machine, in.Owner, in.Words, in.History = hostile, hostile, hostile, []string{hostile}
	in.LabelText, in.Meter.Title, in.Meter.ID = map[string]string{"kind": hostile}, hostile, "test"
	events[0].Intake = &in
	chosen := job.Chosen{
		Path: hostile, Repairs: []string{"new-cell", hostile}, Aim: hostile, Shop: map[string]string{hostile: hostile, "original warranty days": "9"},
		Quote: job.Quote{Currency: hostile, Parts: hostile, Labour: hostile, Other: hostile, Tax: hostile, Total: hostile},
		Lines: []job.QuoteLine{{Part: hostile, Grade: hostile, Qty: 1, Each: hostile, Note: hostile, Piece: hostile}},
	}
	events = log(append(events,
		job.Event{Kind: job.KindChosen, Chosen: &chosen},
		job.Event{Kind: job.KindAsked, Asked: &job.Asked{Approved: true, Who: hostile, How: hostile, Total: hostile, Ceiling: hostile, Currency: hostile, Declined: []string{hostile}}},
		job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: hostile, Term: hostile, Way: hostile}},
		job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: hostile, Line: hostile}},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: hostile}},
		job.Event{Kind: job.KindServed, Served: &job.Served{Service: hostile}},
		job.Event{Kind: job.KindBinned, Binned: &job.Binned{Part: hostile, Words: hostile, Shown: []string{hostile}, Asking: hostile, Currency: hostile, Place: hostile}},
		job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: hostile, Part: hostile}},
		job.Event{Kind: job.KindDone, Done: &job.Done{Work: hostile}},
		job.Event{Kind: job.KindNoted, Noted: &job.Noted{Text: hostile}},
		job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: "bulb_lit", Why: hostile}},
		job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Outcome(job.NotProved), Why: hostile, Verdict: hostile, Found: []string{hostile}}},
	)...)
	d, err := Build(lib, 14, events, repair.Offers{})
	require.NoError(t, err)
	return d
}

func written(t *testing.T, write func(io.Writer, Document) error, d Document) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b, d))
	return b.String()
}

func harmless(t *testing.T, text string) {
	t.Helper()
	for _, r := range text {
		require.False(t, unicode.IsControl(r) && r != '\n' && r != '\r', "%U", r)
		require.False(t, unicode.Is(unicode.Cf, r), "%U", r)
	}
}

func TestHostileTextIsHarmlessEverywhere(t *testing.T) {
	d := hostileLamp(t)
	for name, write := range everyForm {
		harmless(t, written(t, write, d))
		require.NotContains(t, written(t, write, d), "\x1b", name)
	}
	for _, write := range []func(io.Writer, Document) error{HTML, Owner, Tag} {
		page := written(t, write, d)
		require.NotContains(t, strings.ToLower(page), "<script")
		require.Contains(t, page, "&lt;script&gt;", "it is shown, not run")
	}
	// Even when it gets past Build, wherever there is text.
	n := spoil(reflect.ValueOf(&d).Elem())
	require.Greater(t, n, 150)
	for name, write := range everyForm {
		if name != "bench object" {
			harmless(t, written(t, write, d))
		}
	}
	for _, write := range []func(io.Writer, Document) error{HTML, Owner, Tag} {
		require.NotContains(t, strings.ToLower(written(t, write, d)), "<script")
	}
}

// spoil puts hostile text into every text of a document, and counts them.
func spoil(v reflect.Value) int {
	n := 0
	switch v.Kind() {
	case reflect.String:
		v.SetString(hostile)
		return 1
	case reflect.Slice:
		for i := range v.Len() {
			n += spoil(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			n += spoil(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				n += spoil(v.Field(i))
			}
		}
	}
	return n
}

func TestTextKeepsToEightyColumns(t *testing.T) {
	d := hostileLamp(t)
	d.Notes = append(d.Notes, strings.Repeat("x", 300), strings.Repeat("漢字 ", 60))
	d.Readings[0].Taken[0].After = strings.Repeat("long ", 20)
	for _, line := range strings.Split(written(t, Text, d), "\n") {
		require.LessOrEqual(t, ansi.StringWidth(line), columns, line)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}
}

func TestTextSaysEverything(t *testing.T) {
	lib := lamp(t)
	oneLine := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	text := oneLine(written(t, Text, build(t, lib, repairedLamp(t, lib))))
	for _, want := range []string{
		"Report of job 14", "green lamp", `"It went dark."`, "Kind of cell: zinc (usual for the type, not read)", "Test meter", "22 °C",
		"CAUTIONS\n- Leaking cell. Gloves on.", "FOUND\n- The cell is dead. It gives no current.", "  by Cell while lit: 0.350 ± 0.004 V, dead",
		"STILL FOUND AFTER THE REPAIR\n- The bulb is open", "  after Clean the ends: 0.350 ± 0.004 V, dead. It gives nothing.",
		"  bands:   dead | 0.8 V | holds", "  healthy: 1.2 to 1.65 V (at the label)", "red on Plus of the cell, black on Minus of the cell; Switch on;",
		"  before:  0.350 ± 0.004 V, dead", "  after:   1.480 ± 0.011 V, holds", "[x] Fit a cell", "off:   The old cell to a collection point",
		"quote: parts 2.00, labour 4.00, other 0.00, tax 0.15, total 6.15 USD (5", "Glass over the bulb: proved - Whole", "licensed",
		"Ends of the cell", "reads:   Green crust. It resists.",
	} {
		require.Contains(t, text, oneLine(want))
	}
}

func TestHTMLIsOneQuietPage(t *testing.T) {
	lib := lamp(t)
	page := written(t, HTML, build(t, lib, repairedLamp(t, lib)))
	require.True(t, strings.HasPrefix(page, "<!DOCTYPE html>"))
	for _, not := range []string{"<script", "http:", "https:", "<link", "<img", "url(", "ZgotmplZ", "on" + "load", "NaN"} {
		require.NotContains(t, page, not)
	}
	// Four lines of bands: three readings of one test and one of another; the
	// worked-out test makes a fifth.
	require.Equal(t, 5, strings.Count(page, "<svg"))
	require.Contains(t, page, `aria-label="1.480 ± 0.011 V on: dead | 0.8 V | holds"`)
	require.Contains(t, page, "@media print")
	require.Contains(t, page, "<td>0.350 ± 0.004 V, dead</td><td>1.480 ± 0.011 V, holds</td>")
	require.Contains(t, page, "[x] done: Fit a cell")
	for _, name := range []string{"html", "table", "svg", "ul", "li", "div", "p", "h2", "td", "tr", "text", "rect"} {
		opened := regexp.MustCompile(`<`+name+`[ >]`).FindAllString(page, -1)
		require.Len(t, opened, strings.Count(page, "</"+name+">"), name)
	}
}

func TestCSV(t *testing.T) {
	d := hostileLamp(t)
	d.Readings[0].Title, d.Readings[0].Red = "=1+1", " @x"
	d.Readings[0].Taken[0].number = "-0.31"
	rows, err := csv.NewReader(strings.NewReader(written(t, CSV, d))).ReadAll()
	require.NoError(t, err)
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	first := rows[1]
	require.Equal(t, "'=1+1", first[column["title"]])
	require.Equal(t, "' @x", first[column["red"]])
	require.Equal(t, "-0.31", first[column["value"]], "a number stays a number")
	require.Equal(t, []string{"14", "cell_lit", "0.007", "V", "dead", "called", "1.2", "1.65"}, []string{
		first[column["job"]], first[column["test"]], first[column["uncertainty"]], first[column["unit"]], first[column["band"]],
		first[column["answer"]], first[column["healthy_from"]], first[column["healthy_to"]],
	})
	for _, s := range []string{"=x", "+x", "-x", "@x", "  =x", "|x", "%x", "＝x", "'x", "\t=x"} {
		require.True(t, strings.HasPrefix(text(s), "'"), s)
	}
	require.Equal(t, "12.6 V", text("12.6 V"))
	require.Equal(t, "", text(""))
}

// No list of the object is null, at any depth.
func TestJSONHasNoNullList(t *testing.T) {
	lib := lamp(t)
	empty := build(t, lib, log(intake(lib)))
	full := build(t, lib, repairedLamp(t, lib))
	for _, d := range []Document{empty, full} {
		noNilSlice(t, reflect.ValueOf(d), "document")
		var back map[string]any
		require.NoError(t, json.Unmarshal([]byte(written(t, JSON, d)), &back))
		require.Equal(t, "green lamp", back["machine"])
	}
}

func noNilSlice(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Slice:
		require.False(t, v.IsNil(), path)
		for i := range v.Len() {
			noNilSlice(t, v.Index(i), path)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			noNilSlice(t, v.Elem(), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				noNilSlice(t, v.Field(i), path+"."+v.Type().Field(i).Name)
			}
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWritersReportAFullDisk(t *testing.T) {
	for _, write := range []func(io.Writer, Document) error{Text, HTML, JSON, CSV} {
		require.ErrorContains(t, write(broken{}, Document{}), "disk full")
	}
}
