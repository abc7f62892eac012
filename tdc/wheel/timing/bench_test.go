package timing_test

import "testing"

// A capture read and measured, bytes a second.
func BenchmarkCapture(b *testing.B) {
	data := idlingEngine().capture(plainTable())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := measure(data, "60-2", columns(1)); err != nil {
			b.Fatal(err)
		}
	}
}
