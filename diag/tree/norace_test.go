//go:build !race

package tree

const raced = false
