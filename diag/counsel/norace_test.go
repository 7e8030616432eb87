//go:build !race

package counsel

const raced = false
