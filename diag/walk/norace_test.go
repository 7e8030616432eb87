//go:build !race

package walk

const raced = false
