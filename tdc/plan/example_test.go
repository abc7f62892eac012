package plan_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/plan"
)

func ExampleReach() {
	setup := tdc.Setup{
		Engine:     tdc.Engine{Stroke: 86, Rod: 146, KnownTo: tdc.DefaultKnownTo(false)},
		Protractor: tdc.DefaultProtractor(), Gauge: tdc.DefaultGauge(tdc.Dial),
	}
	best, reached, err := plan.Reach(setup, plan.Ground{Deepest: plan.Deepest(tdc.Dial)}, 0.1*geometry.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(best.Points), "readings, reached:", reached)
	// Output:
	// 6 readings, reached: true
}
