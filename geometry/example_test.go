package geometry_test

import (
	"fmt"

	"evendrop/geometry"
)

// A 1.6 litre petrol four: where the piston is 2 mm below its highest point.
func ExampleSliderCrank_AnglesAt() {
	engine, err := geometry.NewSliderCrank(81.4*geometry.Millimetre, 133*geometry.Millimetre, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	before, after, err := engine.AnglesAt(2 * geometry.Millimetre)
	fmt.Printf("%.2f and %.2f deg, %v\n", before.Degrees(), after.Degrees(), err)
	_, _, err = engine.AnglesAt(90 * geometry.Millimetre)
	fmt.Println(err)
	// Output:
	// -15.80 and 15.80 deg, <nil>
	// drop 90 mm is not between zero and the stroke, 81.4 mm
}

// With the bore 8 mm to the side the piston is highest 2.4 deg after the throw
// lies along the bore, and equal drop is a little late.
func ExampleSliderCrank_TDC() {
	engine, err := geometry.NewSliderCrank(86, 146, 8)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("TDC %.2f deg, stroke %.2f mm\n", engine.TDC().Degrees(), engine.Stroke().Millimetres())
	fmt.Printf("middle at 10 mm drop %+.3f deg\n", engine.EqualDropMidpoint(10).Degrees())
	// Output:
	// TDC 2.43 deg, stroke 86.14 mm
	// middle at 10 mm drop +0.135 deg
}

// There is no dwell without a drop: the smaller, the shorter.
func ExampleSliderCrank_Dwell() {
	engine, err := geometry.NewSliderCrank(86, 146, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, within := range []geometry.Length{0.01, 0.1, 1} {
		from, to, err := engine.Dwell(within)
		fmt.Printf("within %v: %.1f deg, %v\n", within, (to - from).Degrees(), err)
	}
	// Output:
	// within 0.01 mm: 2.2 deg, <nil>
	// within 0.1 mm: 6.9 deg, <nil>
	// within 1 mm: 21.8 deg, <nil>
}

// Readings of 348.6 and 11.8 deg straddle 0.2, not 180.2.
func ExampleCircularMean() {
	mean := geometry.CircularMean(348.6*geometry.Degree, 11.8*geometry.Degree)
	fmt.Printf("%.1f deg\n", mean.Degrees())
	// Output: 0.2 deg
}

func ExampleCylinder_VolumeAt() {
	engine, err := geometry.NewSliderCrank(86, 146, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	cylinder, err := geometry.NewCylinder(engine, 86, 10.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, u := range []geometry.Angle{0, 30, 180} {
		fmt.Printf("%3.0f deg: %5.1f cm3\n", float64(u), cylinder.VolumeAt(u*geometry.Degree).CubicCentimetres())
	}
	// Output:
	//   0 deg:  52.6 cm3
	//  30 deg:  95.3 cm3
	// 180 deg: 552.1 cm3
}
