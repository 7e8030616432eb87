package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"benchlead/diag/source"
)

// fuse is a reader that gives out when more is asked of it than is allowed, so
// that one endless value can't fill the memory.
type fuse struct {
	r         io.Reader
	at, limit int64
}

var errTooLong = errors.New("a piece of it is far too long")

func (f *fuse) Read(into []byte) (int, error) {
	if f.at >= f.limit {
		return 0, errTooLong
	}
	n, err := f.r.Read(into[:min(int64(len(into)), f.limit-f.at)])
	f.at += int64(n)
	return n, err
}

// allow lets the decoder read a piece further.
func (r *Reader) allow() { r.fuse.limit = r.dec.InputOffset() + ahead }

// more says whether the list that is being read goes on.
func (r *Reader) more() bool {
	r.allow()
	return !r.over && r.dec.More()
}

// token is the next token; nil when there is none.
func (r *Reader) token() json.Token {
	if r.over {
		return nil
	}
	r.allow()
	t, err := r.dec.Token()
	if err != nil {
		r.broken(err)
		return nil
	}
	r.at = r.dec.InputOffset() - length(t)
	return t
}

// length is how many bytes a token has, escapes in it aside.
func length(t json.Token) int64 {
	switch t := t.(type) {
	case json.Delim:
		return 1
	case json.Number:
		return int64(len(t))
	case string:
		return int64(len(t)) + 2
	}
	return int64(len(fmt.Sprint(t)))
}

func (r *Reader) delim(want json.Delim) {
	if got := r.token(); !r.over && got != want {
		r.stop(fmt.Sprintf("%q belongs here; the form is told by \"benchlead export --help\"", want.String()))
	}
}

func (r *Reader) key(want string) {
	if got := r.token(); !r.over && got != want {
		r.stop(fmt.Sprintf("%q belongs here; the form is told by \"benchlead export --help\"", want))
	}
}

// raw is the next value as it stands, and where it begins.
func (r *Reader) raw() (raw json.RawMessage, at int64) {
	r.allow()
	if err := r.dec.Decode(&raw); err != nil {
		r.broken(err)
		return nil, 0
	}
	return raw, r.dec.InputOffset() - int64(len(raw))
}

// broken notes why the file can't be read on, and where.
func (r *Reader) broken(err error) {
	at := r.dec.InputOffset()
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		r.stopAt(r.fuse.at, "it ends in the middle: a part of it is missing")
	case errors.As(err, &syntax):
		r.stopAt(at+r.slip(at), "it is no JSON: "+strings.TrimPrefix(syntax.Error(), "json: "))
	default:
		r.stopAt(at, source.CleanLine(err.Error()))
	}
}

// slip is how far behind a place the JSON goes wrong: the decoder's own count
// leaves out what lies between values.
func (r *Reader) slip(at int64) int64 {
	if _, err := r.file.Seek(at, io.SeekStart); err != nil {
		return 0
	}
	piece, err := io.ReadAll(io.LimitReader(r.file, mostEvent))
	if err != nil {
		return 0
	}
	value := bytes.TrimLeft(piece, " \t\r\n,:")
	skipped := int64(len(piece) - len(value))
	var syntax *json.SyntaxError
	if err := json.NewDecoder(bytes.NewReader(value)).Decode(new(json.RawMessage)); errors.As(err, &syntax) {
		return skipped + max(syntax.Offset-1, 0)
	}
	return skipped
}
