package app

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/report"
)

// reportAsk is which copy of a report is wanted, in which form, and where to.
type reportAsk struct {
	whom                    string
	html, text, asJSON, csv bool
	to                      string
}

func (a *reportAsk) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&a.whom, "for", "bench", "`whom` it is for: bench, owner, message or tag")
	f.BoolVar(&a.html, "html", false, "one HTML file that prints well")
	f.BoolVar(&a.text, "text", false, "plain text")
	f.BoolVar(&a.asJSON, "json", false, "one JSON object; for the bench")
	f.BoolVar(&a.csv, "csv", false, "the readings as CSV; for the bench")
	f.StringVar(&a.to, "to", "", "write to this `file`, whole or not at all")
}

type reportWriter = func(io.Writer, report.Document) error

// reportCopies are the copies with the forms that each has.
var reportCopies = map[string]map[string]reportWriter{
	"bench":   {"text": report.Text, "html": report.HTML, "json": report.JSON, "csv": report.CSV},
	"owner":   {"text": report.OwnerText, "html": report.Owner},
	"message": {"text": report.MessageText},
	"tag":     {"text": report.TagText, "html": report.Tag},
}

// reportWhom are the copies in the order in which they are named to a person.
var reportWhom = []string{"bench", "owner", "message", "tag"}

// writer is what writes the copy in the form asked for. The error says what goes
// together.
func (a *reportAsk) writer() (reportWriter, error) {
	forms, known := reportCopies[a.whom]
	if !known {
		return nil, fmt.Errorf("there is no copy for %q; choose one of --for %s", a.whom, strings.Join(reportWhom, ", "))
	}
	form, err := a.form()
	if err != nil {
		return nil, err
	}
	if write := forms[form]; write != nil {
		return write, nil
	}
	var has []string
	for _, f := range []string{"text", "html", "json", "csv"} {
		if forms[f] != nil {
			has = append(has, "--"+f)
		}
	}
	return nil, fmt.Errorf("there is no --%s for the %s; it is to be had as %s", form, a.whom, strings.Join(has, " and "))
}

// form is the one that a flag names; without one, that of the file's name.
func (a *reportAsk) form() (string, error) {
	switch {
	case count(a.html, a.text, a.asJSON, a.csv) > 1:
		return "", errors.New("choose one of --text, --html, --json and --csv")
	case a.html:
		return "html", nil
	case a.text:
		return "text", nil
	case a.asJSON:
		return "json", nil
	case a.csv:
		return "csv", nil
	}
	return a.formOfName(), nil
}

// formOfName is the form that the name of the file promises.
func (a *reportAsk) formOfName() string {
	ending := strings.TrimPrefix(strings.ToLower(filepath.Ext(a.to)), ".")
	if ending == "htm" {
		ending = "html"
	}
	if slices.Contains([]string{"html", "json", "csv"}, ending) {
		return ending
	}
	return "text"
}
