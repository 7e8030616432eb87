//go:build race

package recorddb

const raced = true
