package plan_test

import (
	"fmt"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

func ExampleReach() {
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	best, reached, err := plan.Reach(setup, plan.Ground{Deepest: plan.Deepest(evidence.Dial)}, 0.1*geometry.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(best.Points), "readings, reached:", reached)
	// Output:
	// 10 readings, reached: true
}
