package tdc

import (
	"evendrop/tdc/evidence"
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
	add(a.Widening.Told, finding.Scattered{Times: a.Widening.Factor})
	add(!a.Widening.Told && r.TDC.DegreesOfFreedom <= fewDegrees, finding.FewLieApart{})
	add(a.ScaleFar() && r.unit == nil, finding.ScaleOff{Scale: r.Scale.Value})
	add(r.Assumed.Stroke > 0, finding.StrokeUnknown{})
	add(r.Assumed.Rod > 0 && r.Assumed.Stroke == 0, finding.RodAssumed{Rod: r.Assumed.Rod, KnownTo: r.Assumed.RodKnownTo})
	return append(list, unstatedOffset(r)...)
}

// fewDegrees is how few degrees of freedom stretch TDC's interval, by Student's t, by more
// than half of what the same scatter of many readings would make it.
const fewDegrees = 3

// worthStating is the share of TDC's interval from which stating the offset is worth it.
const worthStating = 0.1

// unstatedOffset is what stating the offset would gain, where nobody stated it and it is
// worth it.
func unstatedOffset(r Result) []finding.Finding {
	if r.setup.Engine.OffsetStated {
		return nil
	}
	stated := r.fit.WithOffsetKnown(evidence.DefaultKnownTo(true).Offset).Expanded
	if stated > (1-worthStating)*r.TDC.Expanded {
		return nil
	}
	return []finding.Finding{finding.OffsetUnstated{KnownTo: r.setup.Engine.KnownTo.Offset, Expanded: r.TDC.Expanded, Stated: stated}}
}
