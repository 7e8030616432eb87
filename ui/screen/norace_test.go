//go:build !race

package screen

const raced = false
