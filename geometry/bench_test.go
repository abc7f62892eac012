package geometry_test

import (
	"testing"

	"evendrop/geometry"
)

var sink geometry.Length

// One drop of the piston, with its slope.
func BenchmarkDrop(b *testing.B) {
	s, err := geometry.NewSliderCrank(86, 146, 0.5)
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		drop, _, _ := s.Motion(geometry.Angle(i%100) * 0.01)
		sink += drop
		i++
	}
}
