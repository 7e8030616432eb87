package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"benchlead/diag/source"
)

// compare holds an event as it stands in a file against the same event as it
// would be written: whatever stands there has to be in it, once, with the same
// value, and its text must be harmless. Only how it is spaced and in which order
// it comes may differ.
func compare(raw, written []byte) error {
	var want any
	dec := json.NewDecoder(bytes.NewReader(written))
	dec.UseNumber()
	if err := dec.Decode(&want); err != nil {
		return err
	}
	c := comparison{raw: raw, dec: json.NewDecoder(bytes.NewReader(raw))}
	c.dec.UseNumber()
	return c.value(want, "")
}

// comparison goes through an event. It never goes deeper than what would be
// written does.
type comparison struct {
	raw []byte
	dec *json.Decoder
	at  int64 // where the last token begins
}

// next is the next token of the event, which is sound JSON.
func (c *comparison) next() (json.Token, error) {
	from := c.dec.InputOffset()
	rest := c.raw[from:]
	c.at = from + int64(len(rest)-len(bytes.TrimLeft(rest, " \t\r\n,:")))
	return c.dec.Token()
}

func (c *comparison) value(want any, path string) error {
	got, err := c.next()
	if err != nil {
		return err
	}
	switch got := got.(type) {
	case json.Delim:
		if got == '{' {
			return c.object(want, path)
		}
		return c.list(want, path)
	case string:
		if is, ok := want.(string); !ok || is != got {
			return c.lost(path)
		}
		return c.text(got, path)
	case json.Number:
		if is, ok := want.(json.Number); !ok || !sameNumber(is, got) {
			return c.lost(path)
		}
	default: // true, false, null
		if got != want {
			return c.lost(path)
		}
	}
	return nil
}

func (c *comparison) object(want any, path string) error {
	fields, ok := want.(map[string]any)
	if !ok {
		return c.lost(path)
	}
	had := map[string]bool{}
	for c.dec.More() {
		token, err := c.next()
		if err != nil {
			return err
		}
		name, _ := token.(string)
		inner := strings.TrimPrefix(path+"."+cut(name, 40), ".")
		if err := c.text(name, "a name in "+path); err != nil {
			return err
		}
		field, known := fields[name]
		switch {
		case !known:
			return c.lost(inner)
		case had[name]:
			return &inside{c.at, inner + " is there twice"}
		}
		had[name] = true
		if err := c.value(field, inner); err != nil {
			return err
		}
	}
	_, err := c.next()
	return err
}

func (c *comparison) list(want any, path string) error {
	items, ok := want.([]any)
	if !ok {
		return c.lost(path)
	}
	for i := 0; c.dec.More(); i++ {
		if i >= len(items) {
			return c.lost(path)
		}
		if err := c.value(items[i], fmt.Sprintf("%s[%d]", path, i)); err != nil {
			return err
		}
	}
	_, err := c.next()
	return err
}

// text refuses text that a terminal would act on, and half a character: what is
// written "\ud800" alone is none, and would be lost.
func (c *comparison) text(s, path string) error {
	if path == "" {
		path = "an event"
	}
	if source.Clean(s) != s {
		return &inside{c.at, path + " holds characters that steer a terminal, or hide"}
	}
	if strings.Contains(s, "\uFFFD") && bytes.Contains(c.raw[c.at:c.dec.InputOffset()], []byte(`\u`)) {
		return &inside{c.at, path + " holds half a character"}
	}
	return nil
}

// lost says that something would not be kept as it stands.
func (c *comparison) lost(path string) error {
	if path == "" {
		return &inside{c.at, "an event is an object"}
	}
	return &inside{c.at, path + " would not be kept as it stands here: a newer benchlead wrote it, or it was altered"}
}

// sameNumber says whether two numbers are the same as an event keeps them.
func sameNumber(a, b json.Number) bool {
	if a == b {
		return true
	}
	x, errX := strconv.ParseInt(a.String(), 10, 64)
	y, errY := strconv.ParseInt(b.String(), 10, 64)
	if errX == nil && errY == nil {
		return x == y
	}
	f, errF := a.Float64()
	g, errG := b.Float64()
	return errF == nil && errG == nil && f == g
}
