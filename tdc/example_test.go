package tdc_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

func ExampleFind() {
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	var readings []evidence.Reading
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		for _, r := range [][2]float64{ // deg on the protractor and mm, invented
			{-27, 6.47}, {-21, 4.15}, {-15, 2.33}, {-9, 1.05}, {15, 1.05}, {21, 2.33}, {27, 4.15}, {33, 6.47},
		} {
			readings = append(readings, evidence.Reading{Angle: geometry.Angle(r[0]) * geometry.Degree, Depth: geometry.Length(r[1]), Turn: turn})
		}
	}
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: readings})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("TDC at %.2f ± %.2f deg (95 %%)\n", result.TDC.Angle.Degrees(), result.TDC.Expanded.Degrees())
	for _, m := range result.Methods {
		fmt.Printf("%s: %.2f deg from %d readings\n", m.Name, m.Angle.Degrees(), m.Readings)
	}
	// Output:
	// TDC at 3.01 ± 0.32 deg (95 %)
	// equal drop: 3.00 deg from 16 readings
	// curve fit: 3.00 deg from 16 readings
}
