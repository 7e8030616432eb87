// Command hello is the least program of the same toolkit: the yardstick of
// firstframe.
package main

import (
	"fmt"
	"os"

	_ "benchlead/cmd/internal/quiet" // before anything that links bubbletea

	tea "github.com/charmbracelet/bubbletea"
)

type hello struct{}

func (hello) Init() tea.Cmd { return nil }

func (h hello) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.KeyMsg); ok {
		return h, tea.Quit
	}
	return h, nil
}

func (hello) View() string { return "hello, world" }

func main() {
	if _, err := tea.NewProgram(hello{}, tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
