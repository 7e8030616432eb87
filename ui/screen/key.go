package screen

import tea "github.com/charmbracelet/bubbletea"

// key is one key. A message of the terminal may hold many of them: what is
// typed fast, or over a slow line, comes in one piece.
type key struct {
	name  string // "enter", "pgdown", or the character itself
	char  rune   // 0 when it is no character
	paste string // text that was pasted; never a command
}

// keys takes a message apart.
func keys(msg tea.KeyMsg) []key {
	switch {
	case msg.Paste:
		return []key{{name: "paste", paste: string(msg.Runes)}}
	case msg.Alt:
		return []key{{name: msg.String()}}
	case msg.Type == tea.KeyRunes, msg.Type == tea.KeySpace:
		var out []key
		for _, r := range msg.Runes {
			out = append(out, key{name: string(r), char: r})
		}
		return out
	}
	return []key{{name: msg.String()}}
}

// letter says whether the key is a letter that words are made of.
func (k key) letter() bool { return k.char >= 'a' && k.char <= 'z' || k.char >= 'A' && k.char <= 'Z' }

// typed says whether the key puts something into the input line.
func (k key) typed() bool { return k.char != 0 || k.paste != "" }
