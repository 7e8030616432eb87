package line

import (
	"bufio"
	"errors"
	"io"
	"strings"
)

// longest is how many bytes of one typed line are read; more is refused.
const longest = 4096

// read takes one line, without its end.
func (f *Face) read() (string, error) {
	var b strings.Builder
	for {
		chunk, err := f.in.ReadSlice('\n')
		if b.Len() <= longest {
			b.Write(chunk)
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && b.Len() > 0:
			// A last line without its end is half an answer; it may have been
			// cut off, so it is not taken.
			return "", ErrEnd
		case errors.Is(err, io.EOF):
			return "", ErrEnd
		case err != nil:
			return "", err
		}
		break
	}
	if b.Len() > longest {
		f.Say("That line is too long to be an answer; nothing was recorded.")
		return "", nil
	}
	return strings.TrimRight(b.String(), "\r\n"), nil
}
