package tree

import "testing"

// The whole library, as it lies in trees/, read and checked. A start needs only parts
// of it, see cmd/internal/app. Reading the files is not counted.
func BenchmarkLoadShipped(b *testing.B) {
	files := shipped(b)
	for b.Loop() {
		Load(files)
	}
}
