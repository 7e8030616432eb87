//go:build !race

package recorddb

const raced = false
