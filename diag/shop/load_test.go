package shop

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

const head = "shop: {currency: USD, labour rate: 48, tax percent: 7, tax on: none, warn above percent: 50}\n"

func TestLoadRefuses(t *testing.T) {
	tests := []struct {
		name, text string // ¤ marks where it is reported
		code       source.Code
		says       string
	}{
		{"nothing", "¤", shape.CodeEmpty, "holds nothing"},
		{"not YAML", "shop: {a: [¤}", shape.CodeSyntax, "opened before"},
		{"a list", "¤- a", shape.CodeWrongKind, "keys and values"},
		{"currency", strings.Replace(head, "USD", "¤dollars", 1), money.CodeWord, "currency code"},
		{"tax", strings.Replace(head, "tax percent: 7", "tax percent: ¤700", 1), money.CodeAmount, "more than 100"},
		{"step of nothing", strings.Replace(head, "50}", "50, round to: ¤0}", 1), money.CodeAmount, "rounded to 0"},
		{"broken bytes", "shop: ¤\xff", source.CodeNotText, "UTF-8"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before, after, _ := strings.Cut(tt.text, "¤")
			lines := strings.Split(before, "\n")
			_, issues := Load(source.File{Name: "settings.yaml", Text: before + after})
			i := slices.IndexFunc(issues, func(i source.Issue) bool { return i.Code == tt.code })
			require.GreaterOrEqual(t, i, 0, "%v", issues)
			require.Contains(t, issues[i].Message+" "+issues[i].Hint, tt.says)
			require.Equal(t, []int{len(lines), len(lines[len(lines)-1]) + 1}, []int{issues[i].Place.Line, issues[i].Place.Column}, "%s", issues[i])
		})
	}
}

// Every mistake of the broken file is reported at its line, and nothing else.
func TestBrokenSettings(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "money", "broken-settings.yaml"))
	require.NoError(t, err)
	_, issues := Load(source.File{Name: "broken-settings.yaml", Text: string(data)})
	want, got := map[int][]string{}, map[int][]string{}
	for i, line := range strings.Split(string(data), "\n") {
		if _, codes, ok := strings.Cut(line, " # "); ok {
			want[i+1] = strings.Fields(codes)
		}
	}
	for _, i := range issues {
		got[i.Place.Line] = append(got[i.Place.Line], string(i.Code))
	}
	for line := range want {
		require.ElementsMatch(t, want[line], got[line], "line %d", line)
	}
	require.Len(t, got, len(want), "%v", issues)
}

func FuzzLoad(f *testing.F) {
	f.Add(head)
	f.Add("shop: {{}: 1}\n")
	f.Fuzz(func(t *testing.T, text string) {
		s, issues := Load(source.File{Name: "s", Text: text})
		if len(issues) == 0 {
			require.False(t, s.LabourRate.IsNegative())
		}
	})
}
