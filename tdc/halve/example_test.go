package halve_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

func ExamplePairs() {
	p := evidence.DefaultProtractor() // read to half a degree
	halved, err := halve.Pairs(p, []halve.Pair{{First: 348.6 * geometry.Degree, Second: 11.8 * geometry.Degree}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f ± %.1f deg (95 %%)\n", halved.TDC.Angle.Degrees(), halved.TDC.Expanded.Degrees())
	// Output:
	// 0.2 ± 0.4 deg (95 %)
}
