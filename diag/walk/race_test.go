//go:build race

package walk

const raced = true
