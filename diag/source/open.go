package source

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// MaxBytes is the largest file that is read. A tree written by a person is a
// hundred times smaller.
const MaxBytes = 1 << 20

// The codes of what Open refuses.
const (
	CodeTooBig   Code = "file-too-big"
	CodeNotText  Code = "file-not-utf8"
	CodeOddBreak Code = "file-odd-line-break"
)

const byteOrderMark = "\uFEFF"

// Open takes the content of a file that a person wrote. It takes off a
// byte-order mark and makes every line end "\n". A file over MaxBytes, one that
// isn't UTF-8, or one with exotic line ends (which would make every place after
// them wrong) is refused: then the File is nil.
func Open(name string, data []byte) (*File, Issues) { return OpenUpTo(name, data, MaxBytes) }

// OpenUpTo is Open for a file that a program may have written: it has a limit of its
// own, in bytes.
func OpenUpTo(name string, data []byte, limit int) (*File, Issues) {
	f := &File{Name: name}
	if len(data) > limit {
		return nil, Issues{{
			Code:    CodeTooBig,
			Place:   Place{File: name, Line: 1, Column: 1},
			Message: fmt.Sprintf("the file has %d bytes, more than the %d that are read", len(data), limit),
			Hint:    "split it into several files",
		}}
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	f.Text = strings.TrimPrefix(text, byteOrderMark)
	if is := f.refuse(); len(is) > 0 {
		return nil, is
	}
	return f, nil
}

// refuse reports the first byte that isn't UTF-8, and every character that
// some readers take for a line end and others don't.
func (f *File) refuse() Issues {
	var is Issues
	line, column := 1, 1
	for i, r := range f.Text {
		switch {
		case r == utf8.RuneError && badByte(f.Text[i:]):
			return append(is, f.notText(line, column, f.Text[i]))
		case r == '\u0085' || r == '\u2028' || r == '\u2029':
			is = append(is, f.oddBreak(line, column, r))
		}
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
	}
	return is
}

// badByte tells a broken byte from a replacement character that was written.
func badByte(rest string) bool {
	_, size := utf8.DecodeRuneInString(rest)
	return size == 1
}

func (f *File) notText(line, column int, bad byte) Issue {
	return Issue{
		Code:    CodeNotText,
		Place:   Place{File: f.Name, Line: line, Column: column},
		Message: fmt.Sprintf("the byte 0x%02X is not UTF-8 text", bad),
		Hint:    "save the file as UTF-8",
	}
}

func (f *File) oddBreak(line, column int, r rune) Issue {
	return Issue{
		Code:    CodeOddBreak,
		Place:   Place{File: f.Name, Line: line, Column: column},
		Message: fmt.Sprintf("the invisible line end U+%04X stands here", r),
		Hint:    "delete it and press Enter instead",
	}
}

// At is the place of a spot in the file. Line and column count from 1, the
// column in characters; length is how many characters it covers.
func (f *File) At(line, column, length int) Place {
	return Place{File: f.Name, Line: line, Column: column, Length: length}
}

// Line is the text of line n, counted from 1, without its end. It is empty for
// a line that the file doesn't have.
func (f *File) Line(n int) string {
	rest := f.Text
	for ; n > 1; n-- {
		_, after, found := strings.Cut(rest, "\n")
		if !found {
			return ""
		}
		rest = after
	}
	if n < 1 {
		return ""
	}
	line, _, _ := strings.Cut(rest, "\n")
	return line
}
