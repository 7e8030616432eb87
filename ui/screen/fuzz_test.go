package screen

import (
	"context"
	"io"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/ui"
)

// mostPressed is how many keys of one input are pressed.
const mostPressed = 200

// What a byte of FuzzScreen means, when it is no ASCII character: a key that is none,
// a text in one piece and Enter, a window (its width and height follow), a paste (its
// length follows), a look at suspects and watch.
const (
	byteKey    = 0x80
	byteText   = 0xa0
	byteWindow = 0xe0
	bytePaste  = 0xe1
	byteLook   = 0xe2
)

// messages are the messages that bytes stand for. A character is a key of its own.
func messages(data []byte) []tea.Msg {
	var out []tea.Msg
	types := pressed()
	next := func() byte {
		if len(data) == 0 {
			return 0
		}
		b := data[0]
		data = data[1:]
		return b
	}
	runes := func(text string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)} }
	for len(data) > 0 && len(out) < mostPressed {
		switch b := next(); {
		case b == '\r' || b == '\n':
			out = append(out, tea.KeyMsg{Type: tea.KeyEnter})
		case b == '\x1b':
			out = append(out, tea.KeyMsg{Type: tea.KeyEsc})
		case b < utf8.RuneSelf:
			out = append(out, runes(string(rune(b))))
		case b < byteText:
			out = append(out, tea.KeyMsg{Type: types[int(b-byteKey)%len(types)]})
		case b < byteWindow:
			out = append(out, runes(texts[int(b-byteText)%len(texts)]), tea.KeyMsg{Type: tea.KeyEnter})
		case b == byteWindow:
			out = append(out, tea.WindowSizeMsg{Width: int(next())%140 + 1, Height: int(next())%50 + 1})
		case b == bytePaste:
			n := min(int(next()), len(data))
			msg := runes(string(data[:n]))
			msg.Paste = true
			out, data = append(out, msg), data[n:]
		case b == byteLook:
			out = append(out, suspectsReady{}, watchTick{1}, countTick{1})
		default:
			out = append(out, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(b)<<8 | rune(next())}})
		}
	}
	return out
}

// Jobs that are typed key by key, to begin with. The window of the first is as small
// as can be worked in, and changes.
const (
	tookIn     = "n1\r1\rGreen pump\r\r\r\r\r\r\r\r\r"
	toVerdict  = tookIn + "1\r12.6\ryes\r8.9\r11\r1\r"
	toRepair   = toVerdict + "1\ra\rMrs. K, by telephone\r"
	toServices = toRepair + "yes\r\r\r\r\rd\r12.7\ryes\r11.8\r11.2\r"
	toClosed   = toServices + "2\rpass 3\rpass\ryes\r1\r  \x1b1.2\r1\ryes\rq\r"
)

// pumped is a job of the pump with suspects, and one of the trees as they ship.
const (
	pumped   = "n1\r1\ryard pump\r\r1\r12\r\r20\r\r120\rw\x1b0.37\ryes\r0\ryes\r8.2\r7.9\ryes\r2\rchoose 1\rapprove 400,50 Mrs. K\ryes\ra\rd\ra\rd\ra\rd\r12.7\ryes\r11.2\r13.5\ryes\r1\r11.2\r7\r2\rpass\r1\rclose 1\ryes\r"
	shipped1 = "nno-crank\rkey-start-12v\r1\rRider\r\r\r\r\r\r\r\r\r\r\r\r\r\r\r\r\r\ryes\r1\r1\ryes\r1\r1\rtake battery_rest\r12.68\r11.2\r?pfl\x80tengine\rclose 1\ryes\r"
)

// FuzzScreen: whatever keys are pressed in whatever windows, on a small library, one
// with suspects, or the trees as they ship.
func FuzzScreen(f *testing.F) {
	if raced {
		f.Skip("it has no goroutines, and takes long under the race detector")
	}
	benches := []ui.Bench{bench(f, small), {}, bench(f, shipped)}
	benches[1], _ = suspecting(f)
	for _, keys := range []string{
		toClosed, "\xe0\x31\x0d" + toVerdict + "\xe0\x00\x00\xe0\x4f\x17\x8f\x8e" + "3\r", toRepair + "z\rz\rz\rz\rz\rz\rundo\rq\r",
		toServices + "q\r1\rz\r\xe2all\r\xe1\x04a\nb\x1b", "p a or\x81\x82\rhq", "n?1\r?\x83\x84zz\r\x83\x83", tookIn + "3\ryes\rnote x\rtheld\rw?\xb0\xb1\xc0\xc5\xd0",
		toVerdict + "p2\rdeclined me\rclose\r\r1\ryes\r", toVerdict + "\xe0\x3b\x13aaaa\rlist\rbin\r",
	} {
		f.Add(uint8(0), []byte(keys))
	}
	f.Add(uint8(1), []byte(pumped))
	f.Add(uint8(1), []byte(pumped+"\xe2\xe0\x31\x0dw\x81\x81q\r1\r"))
	f.Add(uint8(2), []byte(shipped1))
	f.Fuzz(func(t *testing.T, which uint8, data []byte) {
		b := benches[int(which)%len(benches)]
		b.Store = &job.Memory{}
		m := NewModel(context.Background(), Options{Bench: b, Zone: time.UTC})
		for _, msg := range messages(data) {
			m.Update(msg)
			sound(t, m)
		}
		kept(t, m)
	})
}

// The seeds of FuzzScreen lead where they should: a seed that stops at the first page
// shows nothing.
func TestTheSeedsWalkDeep(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	weighed, _ := suspecting(t)
	for _, c := range []struct {
		bench ui.Bench
		keys  string
		want  job.Kind
	}{{bench(t, small), toClosed, job.KindClosed}, {weighed, pumped, job.KindClosed}, {bench(t, shipped), shipped1, job.KindRead}} {
		m := NewModel(context.Background(), Options{Bench: c.bench, Zone: time.UTC})
		for _, msg := range messages([]byte(c.keys)) {
			m.Update(msg)
		}
		events, err := c.bench.Store.Load(context.Background(), 1)
		require.NoError(t, err)
		var got []job.Kind
		for _, e := range events {
			got = append(got, e.Kind)
		}
		require.Contains(t, got, c.want, "%s\n%s", got, m.View())
	}
}

// FuzzTerminal: whatever bytes a terminal sends, through the terminal library: nothing
// hangs or panics, nothing that acts on a terminal is put on record, and the log folds.
func FuzzTerminal(f *testing.F) {
	b := bench(f, small)
	for _, keys := range []string{
		toVerdict, tookIn + "\x1b[A\x1b[6~\x1b[200~1\r\x1b[201~\r\x1b", "\x1b[200~n", "\x1b[M   \x1b[<0;1;1M\x1bOP\x1b[1;5A", "n\xff\xfe1\r\xc3",
		"\x1b]11;rgb:0/0/0\x07n1\r", "\x1b[?1;2c\x1b[24;80R", tookIn + "note \x1b[31mred\x7f\x17x\r",
	} {
		f.Add([]byte(keys))
	}
	f.Fuzz(func(t *testing.T, sent []byte) {
		here := b
		here.Store = &job.Memory{}
		ctx, end := context.WithTimeout(context.Background(), 20*time.Second)
		defer end()
		require.NoError(t, Run(ctx, Options{Bench: here, In: &finite{strings.NewReader(string(sent)), end}, Out: io.Discard, Zone: time.UTC}))
		require.NotErrorIs(t, ctx.Err(), context.DeadlineExceeded)
		jobs, err := here.Store.Jobs(context.Background())
		require.NoError(t, err)
		for _, j := range jobs {
			events, err := here.Store.Load(context.Background(), j.ID)
			require.NoError(t, err)
			_, err = job.Fold(events)
			require.NoError(t, err)
			for _, e := range events {
				if e.Noted != nil {
					require.NotContains(t, e.Noted.Text, "\x1b")
				}
			}
		}
	})
}

// finite is an input at whose end the screen ends.
type finite struct {
	io.Reader
	end context.CancelFunc
}

func (e *finite) Read(b []byte) (int, error) {
	n, err := e.Reader.Read(b)
	if err != nil {
		e.end()
	}
	return n, err
}
