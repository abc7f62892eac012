package mark_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// A notch is within its limit, or it is not, only when the whole 95 % interval says
// so.
func ExampleDecide() {
	limit, expanded := 1*geometry.Degree, 0.3*geometry.Degree
	for _, off := range []float64{0.5, 1.2, 2.8} {
		fmt.Println(off, "deg late:", mark.Decide(geometry.Angle(off)*geometry.Degree, expanded, limit))
	}
	// Output:
	// 0.5 deg late: within
	// 1.2 deg late: too close to call
	// 2.8 deg late: outside
}

// One tooth of a 42-tooth cam sprocket is 8.57 deg of the cam, a millimetre along
// the rim at 30 mm 1.91.
func ExampleTurn() {
	tooth, _ := mark.Turn(1, mark.Teeth, 42, 0)
	rim, _ := mark.Turn(1, mark.Arc, 0, 30*geometry.Millimetre)
	fmt.Printf("%.2f %.2f\n", tooth.Degrees(), rim.Degrees())
	// Output:
	// 8.57 1.91
}
