//go:build race

package tree

const raced = true
