package formula

import (
	"strings"
	"unicode"
)

type tokenKind int

const (
	endToken tokenKind = iota
	numberToken
	nameToken // with its dots: label.cells
	textToken // in quotes
	markToken // an operator or a bracket
)

// token is one piece of a formula. At counts characters from 0.
type token struct {
	kind tokenKind
	text string
	at   int
}

func (t token) end() int { return t.at + len([]rune(t.text)) }

func (t token) is(mark string) bool { return t.kind == markToken && t.text == mark }

// scanner cuts a formula into tokens and reports everything that the little
// language leaves out, all of it in one go.
type scanner struct {
	*report
	runes  []rune
	at     int
	tokens []token
}

func (r *report) scan() []token {
	s := &scanner{report: r, runes: r.runes}
	for s.at < len(s.runes) {
		s.next()
	}
	return s.tokens
}

func (s *scanner) next() {
	r := s.runes[s.at]
	switch {
	case unicode.IsSpace(r) && r < unicode.MaxASCII:
		s.at++
	case isDigit(r) || r == '.' && isDigit(s.peek(1)):
		s.number()
	case isLetter(r):
		s.name()
	case r == '"' || r == '\'':
		s.quoted(r)
	default:
		s.mark()
	}
}

func (s *scanner) peek(n int) rune {
	if s.at+n < len(s.runes) {
		return s.runes[s.at+n]
	}
	return 0
}

func (s *scanner) emit(kind tokenKind, length int) {
	s.tokens = append(s.tokens, token{kind, string(s.runes[s.at : s.at+length]), s.at})
	s.at += length
}

// run is how many characters from n on satisfy the condition.
func (s *scanner) run(n int, ok func(rune) bool) int {
	for s.at+n < len(s.runes) && ok(s.runes[s.at+n]) {
		n++
	}
	return n
}

func (s *scanner) number() {
	n := s.run(0, isDigit)
	if s.peek(n) == '.' && s.peek(n+1) != '.' {
		n = s.run(n+1, isDigit)
	}
	if isExponent(s.runes[s.at+n:]) {
		n = s.run(n+2, isDigit)
	}
	s.emit(numberToken, n)
}

// isExponent recognises e5, E+5, e-5.
func isExponent(rest []rune) bool {
	if len(rest) < 2 || unicode.ToLower(rest[0]) != 'e' {
		return false
	}
	if isDigit(rest[1]) {
		return true
	}
	return len(rest) > 2 && strings.ContainsRune("+-", rest[1]) && isDigit(rest[2])
}

func (s *scanner) name() {
	n := s.run(0, isWord)
	for s.peek(n) == '.' && isLetter(s.peek(n+1)) {
		n = s.run(n+1, isWord)
	}
	s.emit(nameToken, n)
}

func (s *scanner) quoted(quote rune) {
	n := 1
	for s.peek(n) != quote {
		if s.at+n >= len(s.runes) || s.peek(n) == '\n' || s.peek(n) == '\\' {
			s.add(CodeSyntax, s.at, n, "this text is not closed", "write a plain word between two quotes")
			s.at = s.run(n, func(r rune) bool { return r != quote }) + s.at
			s.at = min(s.at+1, len(s.runes))
			return
		}
		n++
	}
	s.emit(textToken, n+1)
}

// marks are the operators and brackets of the language.
var marks = map[string]bool{
	"+": true, "-": true, "*": true, "/": true, "(": true, ")": true, ",": true, "?": true, ":": true,
	"<": true, "<=": true, ">": true, ">=": true, "==": true, "!=": true, "&&": true, "||": true, "!": true,
}

// mark reads an operator or a bracket, two characters of it if it can.
func (s *scanner) mark() {
	for length := min(2, len(s.runes)-s.at); length > 0; length-- {
		text := string(s.runes[s.at : s.at+length])
		if bad, ok := refused[text]; ok {
			s.refuse(bad, length)
			return
		}
		if marks[text] {
			s.emit(markToken, length)
			return
		}
	}
	s.add(CodeSyntax, s.at, 1, quote(string(s.runes[s.at]))+" can't stand in a formula", "")
	s.at++
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isLetter(r rune) bool {
	return r == '_' || r == '°' || unicode.IsLetter(r)
}

func isWord(r rune) bool { return isLetter(r) || isDigit(r) }
