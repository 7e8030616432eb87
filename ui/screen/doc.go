// Package screen is the full-screen face: it shows what package ui asks for,
// and turns keys into the same typed text that the plain lines take. It decides
// nothing about a machine.
//
// # Keys
//
// An input line is always there. What is typed goes into it and Enter sends it,
// in the words of package ui: a reading, "pass", "yes", several readings on one
// line. While it is empty some single keys stand for those words. Two rules
// keep them from doing harm:
//
//   - A key that only shows something acts at once. When the letter that
//     opened a view turns out to be the beginning of a word or of a test's name
//     ("p", then "a" of "pack_rest"), the view closes and the word is typed.
//   - A key that records something, or leaves, waits for Enter, and the input
//     line says what Enter will do: the number of a choice is shown with its
//     words first. So a sleeve on the keyboard records nothing. Make-safe,
//     danger and the cautions of a repair are confirmed by the whole word "yes"
//     alone. One exception: at a repair's checklist Enter by itself ticks the line
//     under >, for a hand that holds a wrench; undo takes it back.
//
// # For gloves and from afar
//
//   - Tab shows readings in big figures, while they are typed and after Enter, with
//     what they are called; for the whole session, until Tab is pressed again.
//   - Space counts down a time that the step says ("hold it for three seconds"). It
//     records nothing and answers nothing; Ctrl-G has it end with the bell.
//   - A page that stands until the next key (an answer in big figures, a countdown that
//     is over) takes Enter and Esc for just that.
//   - Up brings back a line that Esc emptied. Going back in the intake shows what was
//     answered before, and Enter keeps it.
//   - No meaning rests on a colour: all words are the same without any.
//
// # Driving it without a terminal
//
// A [Model] is a tea.Model that needs no terminal. A key starts no command but
// tea.Quit, and those that start the stop-watch or a countdown a look at it; everything
// is done before Update returns. Init's only command waits until suspects are ready; it is
// nil without any:
//
//	m := screen.NewModel(ctx, screen.Options{Bench: bench})
//	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
//	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("12.6")})
//	m.Update(tea.KeyMsg{Type: tea.KeyEnter})
//	m.View()
//
// Every line that ui.Session.Enter takes can be sent as its runes and Enter.
// At the jobs list "n" begins an intake, a number and Enter opens a job. At the
// intake a text and Enter, or Enter alone, answers a question; "?" alone says
// how. The last answer begins the job. Model.Session is the job that is open.
package screen
