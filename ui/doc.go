// Package ui is what both faces share: a session on one job, what it asks for
// in words, and a typed answer turned back into an event.
//
// The plain lines (ui/line) and the screen (ui/screen) differ only in how they
// show a Prompt and collect the text of an answer. What an answer means, what
// is recorded, and what comes next is decided here, once; so one script of
// answers gives the same log in both.
package ui
