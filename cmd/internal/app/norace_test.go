//go:build !race

package app

const raced = false
