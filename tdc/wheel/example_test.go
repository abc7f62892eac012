package wheel_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
)

// The 15th tooth after the gap of a 60-2 wheel comes 14 pitches of 6 deg after the
// first.
func ExampleParse() {
	w, err := wheel.Parse("60-2")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d teeth, %d pitches of %.0f deg\n", w.Teeth(), w.Pitches(), w.Pitch().Degrees())
	fmt.Printf("tooth 15 at %.0f deg, 90 deg at tooth %.0f\n", w.Angle(14).Degrees(), 1+w.Tooth(90*geometry.Degree))
	// Output:
	// 58 teeth, 60 pitches of 6 deg
	// tooth 15 at 84 deg, 90 deg at tooth 16
}
