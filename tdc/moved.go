package tdc

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/slip"
)

// session is what moved while the readings were taken, and the adjustment to go by.
func session(a *solve.Solved, setup evidence.Setup, read []evidence.Reading, pairs int) slip.Told {
	told := slip.Look(a, setup.Protractor, read, pairs > 0)
	for s := told.Slip; s != nil; s = s.Or {
		if s.Kind == slip.GaugeZero { // as its numbers grow
			s.Size = float64(setup.Gauge.Falling(geometry.Length(s.Size)))
		}
	}
	return told
}

// sayMoved puts what moved, and what could not be seen to, among the findings.
func (r *Result) sayMoved(told slip.Told) {
	r.Slip, r.Moved = told.Slip, told.Moved
	switch {
	case told.Slip != nil:
		r.seenBefore()
		r.sayFirst(r.moved(*told.Slip))
	case r.oneWay():
		r.Findings = append(r.Findings, finding.OneWayOnly{})
	}
	if told.Worn && r.lashBeyond() {
		g := r.setup.Gauge
		r.Findings = append(r.Findings, finding.LashBeyond{
			Lash: geometry.Length(r.Lash.Value), Expanded: geometry.Length(gum.Normal95 * r.Lash.Uncertainty), Stated: g.Lash, KnownTo: g.LashKnownTo,
		})
	}
}

// seenBefore tells of each kind of pairs that disagrees whether it would agree if it was seen
// before the protractor moved: when a pair was seen nobody writes down.
func (r *Result) seenBefore() {
	for i, f := range r.Findings {
		if apart, is := f.(finding.MethodApart); is && r.protractorMoved() {
			since := (apart.Off + geometry.Angle(r.Slip.Size)).Signed()
			apart.Moved = math.Abs(float64(since)) <= float64(apart.Limit)
			r.Findings[i] = apart
		}
	}
}

// untoldOneWay says that readings turned one way, during which something moved, do not
// tell TDC: each flank fits one of its own.
func (r *Result) untoldOneWay() {
	if r.Slip != nil && r.oneWay() && r.CannotTell == nil {
		r.CannotTell = finding.MovedOneWay{Moment: r.moment(*r.Slip)}
		r.sayFirst(r.CannotTell)
	}
}

// oneWay tells whether every reading was taken turning the same way; false without any.
func (r *Result) oneWay() bool {
	for _, j := range r.Readings {
		if j.Turn != r.Readings[0].Turn {
			return false
		}
	}
	return len(r.Readings) > 0
}

// lashBeyond tells whether the lash's whole interval lies outside its stated range.
func (r *Result) lashBeyond() bool {
	g, half := r.setup.Gauge, gum.Normal95*r.Lash.Uncertainty
	return r.Lash.Value-half > float64(g.Lash+g.LashKnownTo) || r.Lash.Value+half < float64(g.Lash-g.LashKnownTo)
}

// moved is a move as a finding.
func (r *Result) moved(s slip.Slip) finding.Finding {
	switch s.Kind {
	case slip.Protractor:
		return finding.ProtractorMoved{
			Moment: r.moment(s), By: geometry.Angle(s.Size), Expanded: geometry.Angle(gum.Normal95 * s.Uncertainty),
		}
	case slip.GaugeZero:
		return finding.GaugeMoved{
			Moment: r.moment(s), By: geometry.Length(s.Size), Expanded: geometry.Length(gum.Normal95 * s.Uncertainty),
		}
	}
	return finding.TurnSwapped{
		Place: finding.At(r.Readings[s.After].Reading), From: s.After + 1, To: s.To, Probability: r.Moved, Or: instead(s.Or),
	}
}

// moment is when something moved; of a run's turn, when the run began.
func (r *Result) moment(s slip.Slip) finding.Moment {
	last := r.Readings[max(0, s.After-1)].Reading
	return finding.Moment{Place: finding.At(last), After: s.After, Probability: r.Moved, Or: instead(s.Or)}
}

// instead is a move as one that may have been instead; nil of none.
func instead(s *slip.Slip) *finding.Instead {
	if s == nil {
		return nil
	}
	m := &finding.Instead{Part: string(s.Kind), After: s.After, To: s.To}
	switch s.Kind {
	case slip.Protractor:
		m.Angle = geometry.Angle(s.Size)
	case slip.GaugeZero:
		m.Depth = geometry.Length(s.Size)
	}
	return m
}

// countFrom is a finding with so many readings of earlier sets counted before its own.
func countFrom(f finding.Finding, taken int) finding.Finding {
	switch f := f.(type) {
	case finding.ProtractorMoved:
		f.Moment = f.Moment.From(taken)
		return f
	case finding.GaugeMoved:
		f.Moment = f.Moment.From(taken)
		return f
	case finding.TurnSwapped:
		f.From, f.To, f.Or = f.From+taken, f.To+taken, f.Or.From(taken)
		return f
	case finding.MovedOneWay:
		f.Moment = f.Moment.From(taken)
		return f
	}
	return f
}

// MovedAfter is the reading of the cylinder, those of earlier sets among them, after
// which the protractor moved; zero where it is not found to have.
func (r Result) MovedAfter() int {
	if r.protractorMoved() {
		return r.Taken + r.Slip.After
	}
	return 0
}

func (r Result) protractorMoved() bool { return r.Slip != nil && r.Slip.Kind == slip.Protractor }

// Since is what the protractor would show, since it moved, where reading i was taken.
func (r Result) Since(i int) geometry.Angle {
	angle := r.Readings[i].Angle
	if r.protractorMoved() && i < r.Slip.After {
		angle += geometry.Angle(r.Slip.Size)
	}
	return angle
}
