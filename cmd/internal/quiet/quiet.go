// Package quiet keeps the terminal library from talking to the terminal before
// the program has begun.
//
// bubbletea v1 asks the terminal for its background colour in its own init:
// every command then waits up to five seconds on a terminal that does not
// answer, and keys typed ahead are lost. Go initialises packages in the order
// of their import paths once their imports are ready, and "benchlead/..." comes
// before "github.com/charmbracelet/bubbletea", so saying here what the
// background is leaves nothing to ask. The palette uses the sixteen colours of
// the terminal only and reads on dark and light, so the answer does not matter.
package quiet

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
