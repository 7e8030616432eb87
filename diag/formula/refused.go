package formula

// refusal is why something that other languages allow is left out of this one.
type refusal struct {
	message string
	hint    string
	toEnd   bool // the rest of the line belongs to it
}

// refused are marks of one or two characters.
var refused = map[string]refusal{
	"//":     {"a remark can't stand in a formula", "put it on a line of its own in the file, after #", true},
	"/*":     {"a remark can't stand in a formula", "put it on a line of its own in the file, after #", true},
	"#":      {"a remark can't stand in a formula", "put it on a line of its own in the file, after #", true},
	"**":     {"powers can't be used", "multiply: x * x", false},
	"^":      {"powers can't be used", "multiply: x * x", false},
	"%":      {`"%" can't stand in a formula`, "for 5 % of x write 0.05 * x", false},
	"..":     {"a range can't be used", "compare both ends: a <= x and x <= b", false},
	"?.":     {`"?." can't be used`, "a formula is worked out only when every name in it is known", false},
	"??":     {`"??" can't be used`, "a formula is worked out only when every name in it is known", false},
	"::":     {`"::" can't be used`, "", false},
	"[":      {"lists and brackets [ ] can't be used", "write the name with a dot, label.cells", false},
	"]":      {"lists and brackets [ ] can't be used", "write the name with a dot, label.cells", false},
	"{":      {"brackets { } can't be used", "to group, write ( )", false},
	"}":      {"brackets { } can't be used", "to group, write ( )", false},
	"`":      {"this quote can't be used", `write "word"`, false},
	"“":      {"this quote can't be used", `write "word"`, false},
	"”":      {"this quote can't be used", `write "word"`, false},
	";":      {"a formula is one expression", "work parts of it out in tests of their own", false},
	"×":      {"this sign can't be used", "to multiply, write *", false},
	"·":      {"this sign can't be used", "to multiply, write *", false},
	"÷":      {"this sign can't be used", "to divide, write /", false},
	"−":      {"this is not the minus of the keyboard", "write -", false},
	"–":      {"this is not the minus of the keyboard", "write -", false},
	"≤":      {"this sign can't be used", "write <=", false},
	"≥":      {"this sign can't be used", "write >=", false},
	"≠":      {"this sign can't be used", "write !=", false},
	"±":      {"this sign can't be used", "write within(a, b, tolerance)", false},
	"\u00a0": {"this is an invisible space that doesn't count as one", "delete it and press the space bar", false},
	"=":      {"a formula can't set anything", "to compare words write ==, numbers < <= > >= or within(a, b, tolerance)", false},
	"|":      {`"|" can't be used`, `for a choice write "or"`, false},
	"&":      {`"&" can't be used`, `write "and"`, false},
}

// refusedWords are operators of the expression library that are not ours.
var refusedWords = map[string]string{
	"in": `compare one by one: x == "a" or x == "b"`, "matches": "", "contains": "", "startsWith": "", "endsWith": "",
	"let": "work parts of it out in tests of their own", "if": "write: condition ? value : other value",
	"else": "write: condition ? value : other value", "nil": "a formula is worked out only when every name in it is known",
	"true": "compare something", "false": "compare something",
}

// Reserved is true for a word that the language keeps for itself, so that no
// test or label field can be named so.
func Reserved(name string) bool {
	_, refused := refusedWords[name]
	_, function := byName[name]
	return refused || function || joining[name]
}

// joining are the words that stand between or before conditions.
var joining = map[string]bool{"and": true, "or": true, "not": true}

func (s *scanner) refuse(bad refusal, length int) {
	if bad.toEnd {
		length = s.run(0, func(r rune) bool { return r != '\n' })
	}
	s.add(CodeSyntax, s.at, length, bad.message, bad.hint)
	s.at += length
}
