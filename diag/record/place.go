package record

import (
	"bufio"
	"cmp"
	"errors"
	"io"
	"slices"

	"benchlead/diag/source"
)

// CodeExport is the code of every issue with an export.
const CodeExport source.Code = "export"

// Issues are the problems with their lines and columns in the file, which is read
// once more from its beginning.
func Issues(name string, file io.ReadSeeker, problems []Problem) (source.Issues, error) {
	if len(problems) == 0 {
		return nil, nil
	}
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	sorted := slices.Clone(problems)
	slices.SortStableFunc(sorted, func(a, b Problem) int { return cmp.Compare(a.At, b.At) })
	var out source.Issues
	in := bufio.NewReader(file)
	here := spot{line: 1, column: 1}
	for _, p := range sorted {
		for here.at < p.At {
			b, err := in.ReadByte()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				return nil, err
			}
			here.pass(b)
		}
		out = append(out, source.Issue{
			Code: CodeExport, Message: p.Error(),
			Place: source.Place{File: name, Line: here.line, Column: here.column},
		})
	}
	return out, nil
}

// spot is a byte of a file with its line and column.
type spot struct {
	at           int64
	line, column int
}

func (s *spot) pass(b byte) {
	s.at++
	switch {
	case b == '\n':
		s.line, s.column = s.line+1, 1
	case b&0xC0 != 0x80: // the first byte of a character
		s.column++
	}
}
