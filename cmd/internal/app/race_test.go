//go:build race

package app

const raced = true
