package source_test

import (
	"strings"
	"testing"

	"benchlead/diag/source"
	"github.com/stretchr/testify/require"
)

func TestOpen(t *testing.T) {
	f, issues := source.Open("t.yaml", []byte("\uFEFFone\r\ntwo\rthree µ\n"))
	require.NoError(t, issues.Err())
	require.Equal(t, "t.yaml", f.Name)
	require.Equal(t, "one\ntwo\nthree µ\n", f.Text)
	for n, want := range map[int]string{-1: "", 0: "", 1: "one", 2: "two", 3: "three µ", 4: "", 5: "", 99: ""} {
		require.Equal(t, want, f.Line(n), n)
	}
	require.Equal(t, source.Place{File: "t.yaml", Line: 3, Column: 7, Length: 1}, f.At(3, 7, 1))
}

func TestOpenRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"a broken byte", "aµ: 1\nbµ\xff: 2\n\xfe", "t.yaml:2:3: the byte 0xFF is not UTF-8 text [file-not-utf8]"},
		{"half a character", "ok \xc2", "t.yaml:1:4: the byte 0xC2 is not UTF-8 text [file-not-utf8]"},
		{"UTF-16", "\xff\xfea\x00", "t.yaml:1:1: the byte 0xFF is not UTF-8 text [file-not-utf8]"},
		{"odd line ends", "a\u2028b\n\u0085", "t.yaml:1:2: the invisible line end U+2028 stands here [file-odd-line-break]\n" +
			"t.yaml:2:1: the invisible line end U+0085 stands here [file-odd-line-break]"},
		{"too much", strings.Repeat("a", source.MaxBytes+1), "t.yaml:1:1: the file has 1048577 bytes, more than the 1048576 that are read [file-too-big]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, issues := source.Open("t.yaml", []byte(c.text))
			require.Nil(t, f)
			require.EqualError(t, issues.Err(), c.says)
		})
	}
	f, issues := source.Open("t.yaml", []byte("\uFFFD"+strings.Repeat("a", source.MaxBytes-3)))
	require.NoError(t, issues.Err(), "a replacement character that was written, and the largest file")
	require.NotNil(t, f)
}

func TestOrigin(t *testing.T) {
	f := &source.File{Name: "t.yaml"}
	one := source.Of(f, 4, 10, "drop+1")
	require.Equal(t, source.Place{File: "t.yaml", Line: 4, Column: 10, Length: 6}, one.Start())
	require.Equal(t, source.Place{File: "t.yaml", Line: 4, Column: 15, Length: 1}, one.At(1, 6, 1))
	require.Equal(t, one.Start(), one.At(2, 1, 1), "a line that can't be mapped")
	block := source.Block([]source.Place{f.At(4, 3, 0), f.At(5, 5, 0)})
	require.Equal(t, f.At(5, 8, 2), block.At(2, 4, 2))
	rough := source.Roughly(f.At(9, 2, 5))
	require.Equal(t, f.At(9, 2, 5), rough.At(1, 4, 1))
	require.Equal(t, source.Place{}, source.Origin{}.At(1, 1, 1))
}
