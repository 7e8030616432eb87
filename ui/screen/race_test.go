//go:build race

package screen

const raced = true
