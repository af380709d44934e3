package heat_test

import "testing"

// A box of six faces, with its low and high.
func BenchmarkLoss(b *testing.B) {
	for b.Loop() {
		if _, err := box().Loss(warm()); err != nil {
			b.Fatal(err)
		}
	}
}
