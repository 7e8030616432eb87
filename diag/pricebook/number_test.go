package pricebook

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What people and spreadsheets write, by hand: the number meant, "?" where it means
// two things, "!" where it means none.
func TestNumbers(t *testing.T) {
	for _, c := range []struct{ text, either, point, comma string }{
		{"84", "84", "84", "84"},
		{"84.00", "84.00", "84.00", "!"},
		{"84,00", "84.00", "!", "84.00"},
		{"84,5", "84.5", "!", "84.5"},
		{"1,234", "?", "1234", "1.234"},
		{"1.234", "?", "1.234", "1234"},
		{"12,345", "?", "12345", "12.345"},
		{"123.456", "?", "123.456", "123456"},
		{"1234,567", "1234.567", "!", "1234.567"}, // thousands would be set off before the 234
		{"0,234", "0.234", "!", "0.234"},          // no group begins with a nought
		{"0.234", "0.234", "0.234", "!"},
		{"1,2345", "1.2345", "!", "1.2345"},
		{"1,234.50", "1234.50", "1234.50", "!"},
		{"1.234,50", "1234.50", "!", "1234.50"},
		{"1.234.567", "1234567", "!", "1234567"},
		{"1,234,567", "1234567", "1234567", "!"},
		{"1.234.567,8", "1234567.8", "!", "1234567.8"},
		{"1 234,50", "1234.50", "!", "1234.50"},
		{"1\u00a0234.50", "1234.50", "1234.50", "!"},
		{"1'234.50", "1234.50", "1234.50", "!"},
		{"1\u202f234", "1234", "1234", "1234"},
		{"84 50", "!", "!", "!"}, // 84.50 with a space for the mark is not 8450
		{"8 4.00", "!", "!", "!"},
		{"0 234", "!", "!", "!"},
		{",50", ".50", "!", ".50"}, // half of one is not fifty
		{"1,,234", "!", "!", "!"},
		{"12,34,567", "!", "!", "!"},
		{"1.23.456", "!", "!", "!"},
		{"1,234.5.6", "!", "!", "!"},
		{"1.234,5,6", "!", "!", "!"},
		{"1234,567.8", "!", "!", "!"},
		// Not made of digits and marks, or nothing around the mark: as it is, and refused
		// where amounts are read.
		{"free", "free", "free", "free"},
		{"-5", "-5", "-5", "-5"},
		{"", "", "", ""},
		{".", ".", ".", "."},
	} {
		for mark, want := range map[Mark]string{Either: c.either, Point: c.point, Comma: c.comma} {
			got, err := plain(c.text, mark)
			switch want {
			case "?":
				require.ErrorIs(t, err, errAmbiguous, "%q with %q", c.text, mark)
			case "!":
				require.Error(t, err, "%q with %q: %s", c.text, mark, got)
				require.NotErrorIs(t, err, errAmbiguous)
			default:
				require.NoError(t, err, "%q with %q", c.text, mark)
				require.Equal(t, want, got, "%q with %q", c.text, mark)
			}
		}
	}
}

// Said once, an ambiguous table is read.
func TestTheMarkIsSaid(t *testing.T) {
	text := "part;grade;price\npack;bin;1,234\n"
	_, issues := read(t, text, Options{})
	require.Equal(t, CodeAmbiguous, issues[0].Code)
	require.Contains(t, issues[0].Message, `"1,234" may be 1234 or 1.234`)
	for mark, want := range map[Mark]string{Comma: "1.234", Point: "1234"} {
		list, issues := read(t, text, Options{Decimal: mark})
		require.Empty(t, issues)
		require.Equal(t, want, list.Prices[0].Each.String())
	}
}
