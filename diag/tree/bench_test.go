package tree

import "testing"

// The whole library, as it lies in trees/, must load in well under 100 ms. Reading
// the files is not counted.
func BenchmarkLoadShipped(b *testing.B) {
	files := shipped(b)
	for b.Loop() {
		Load(files)
	}
}
