package tdc

import (
	"evendrop/tdc/finding"
)

// weakened is what weakens the answer, of so many pairs of angles.
func weakened(r Result, pairs int, turned bool) (list []finding.Finding) {
	a := r.fit
	add := func(when bool, f finding.Finding) {
		if when {
			list = append(list, f)
		}
	}
	n := len(r.Readings)
	add(turned, finding.GaugeCountsOtherWay{Counts: r.setup.Gauge.Counts})
	add(n > 0 && n+2*pairs < 6, finding.FewReadings{Readings: n})
	list = append(list, r.cover...)
	list = append(list, a.OddPairs()...)
	add(r.Dwell != nil && r.Dwell.Lag == nil, finding.DwellOneWay{})
	list = append(list, r.apart...)
	list = append(list, a.Suspects()...)
	if r.WithAll != nil {
		add(true, finding.WithEveryReading{TDC: r.WithAll.Angle, Expanded: r.WithAll.Expanded})
	}
	add(a.Scatter() > 1, finding.Scattered{Times: a.Scatter()})
	add(a.ScaleFar() && r.unit == nil, finding.ScaleOff{Scale: r.Scale.Value})
	add(r.Assumed.Stroke > 0, finding.StrokeUnknown{})
	add(r.Assumed.Rod > 0 && r.Assumed.Stroke == 0, finding.RodAssumed{Rod: r.Assumed.Rod, KnownTo: r.Assumed.RodKnownTo})
	return list
}
