package tree

import "testing"

// The whole library must load in well under 100 ms.
func BenchmarkLoad(b *testing.B) {
	files := shipped(b)
	for b.Loop() {
		Load(files)
	}
}
