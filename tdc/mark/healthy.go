package mark

import (
	"fmt"
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// Healthy is what a mark showed on healthy engines: what the same mark of an
// engine in doubt may be compared with in place of its nominal angle.
type Healthy struct {
	Name, On, Against string
	Measured          bool           // as a shift, without the protractor
	TwoTurns          bool           // the angle is known but for two turns of the crank, else but for one
	Angle             geometry.Angle // crank: after the piston's TDC, or the shift
	Uncertainty       geometry.Angle // standard, of the mean
	OfTDC             geometry.Angle // the part of it that the TDC measured from leaves all marks alike
	Scatter           geometry.Angle // standard deviation among engines beyond what measuring them explains
	DegreesOfFreedom  float64        // of Uncertainty and Scatter
	Engines           int
	Limit             geometry.Angle
	HasLimit          bool
}

// Keep is what the marks of one healthy engine showed, but for its lobes.
func Keep(findings []Judged) []Healthy {
	kept := make([]Healthy, 0, len(findings))
	for _, f := range findings {
		if f.Lobe != nil { // its curve is kept: where it stands depends on how its flanks are weighed
			continue
		}
		kept = append(kept, Healthy{
			Name: f.Name, On: f.On, Against: f.Reference(), Measured: f.Off != nil, TwoTurns: f.Period > geometry.Turn,
			Angle: f.place(), Uncertainty: geometry.Angle(f.measuring.Standard()),
			OfTDC:            f.ofTDC(),
			DegreesOfFreedom: math.Max(1, f.measuring.Degrees()), Engines: 1, Limit: f.Limit, HasLimit: f.HasLimit,
		})
	}
	return kept
}

// ofTDC is the part of a mark's uncertainty that the TDC it was read from leaves all
// marks; no more than the whole, which is smaller where TDC was read at the mark's line.
func (f Judged) ofTDC() geometry.Angle {
	if f.seen == nil {
		return 0
	}
	return geometry.Angle(min(f.seen.OfTDC(), f.measuring.Standard()))
}

// place is a mark's position as a known-good file has it: a shift as it was measured,
// which may be an edge's place in two turns, and an angle from TDC either side of it.
func (f Judged) place() geometry.Angle {
	if f.Off != nil {
		return f.Position
	}
	return Wrapped(f.Position, f.Period)
}

// Combine is what the marks of several healthy engines of one family showed, in
// the order in which they first come. A mark that is not the same in all of them
// is an error.
func Combine(engines ...[]Healthy) ([]Healthy, error) {
	var names []string
	same := map[string][]Healthy{}
	for _, marks := range engines {
		for _, h := range marks {
			if len(same[h.Name]) == 0 {
				names = append(names, h.Name)
			} else if problem := h.differs(same[h.Name][0]); problem != "" {
				return nil, fmt.Errorf("mark %q: %s: give the two different names, or measure them the same way", h.Name, problem)
			}
			same[h.Name] = append(same[h.Name], h)
		}
	}
	var kept []Healthy
	for _, name := range names {
		kept = append(kept, mean(same[name]))
	}
	return kept, nil
}

// differs says how two marks of one name are not the same mark.
func (h Healthy) differs(other Healthy) string {
	switch {
	case h.On != other.On:
		return fmt.Sprintf("it is on the %s here and on the %s there", h.On, other.On)
	case h.Against != other.Against:
		return fmt.Sprintf("it is measured against the %s here and against the %s there", h.Against, other.Against)
	case h.Measured != other.Measured:
		return "it is read on the protractor in one and given as a shift, off, in the other"
	}
	return ""
}

// mean is the mean of one mark over engines, weighted by what each is known to.
// Where they scatter by more than that, Birge's ratio widens it (Birge1932), and what
// is left over is the scatter among engines (DerSimonian1986).
func mean(of []Healthy) Healthy {
	m := of[0]
	var sum, squares, about, chi float64 // of the weights, of their squares, of the angles about the first
	shared := 0.0
	for _, h := range of {
		m.TwoTurns = m.TwoTurns && h.TwoTurns
		if h.HasLimit && (!m.HasLimit || h.Limit < m.Limit) {
			m.Limit, m.HasLimit = h.Limit, true
		}
		m.DegreesOfFreedom = math.Min(m.DegreesOfFreedom, h.DegreesOfFreedom)
	}
	for _, h := range of {
		w := 1 / sq(float64(h.Uncertainty))
		sum += w
		squares += w * w
		about += w * float64(Wrapped(h.Angle-of[0].Angle, m.period()))
		shared += sq(w * float64(h.OfTDC))
	}
	at := about / sum
	for _, h := range of {
		chi += sq(float64(Wrapped(h.Angle-of[0].Angle, m.period()))-at) / sq(float64(h.Uncertainty))
	}
	if m.Angle = of[0].Angle + geometry.Angle(at); !m.Measured {
		m.Angle = Wrapped(m.Angle, m.period())
	}
	m.Engines = len(of)
	m.OfTDC = geometry.Angle(math.Sqrt(shared) / sum)
	m.Uncertainty = geometry.Angle(1 / math.Sqrt(sum))
	if free := float64(len(of) - 1); free > 0 && chi > free {
		m.Uncertainty *= geometry.Angle(math.Sqrt(chi / free))
		m.Scatter = geometry.Angle(math.Sqrt((chi - free) / (sum - squares/sum)))
		m.DegreesOfFreedom = math.Min(m.DegreesOfFreedom, free)
	}
	return m
}

func sq(x float64) float64 { return x * x }

// period is what the angle is known but for.
func (h Healthy) period() geometry.Angle {
	if h.TwoTurns {
		return 2 * geometry.Turn
	}
	return geometry.Turn
}

// spread is how sure it is that another healthy engine shows the mean: the mean's
// own uncertainty, and the scatter among engines.
func (h Healthy) spread() gum.Spread {
	s := gum.Spread{Normal: []gum.Component{{Standard: float64(h.Uncertainty), Degrees: h.DegreesOfFreedom}}}
	if h.Scatter > 0 {
		s.Normal = append(s.Normal, gum.Component{Standard: float64(h.Scatter), Degrees: h.DegreesOfFreedom})
	}
	return s
}

// Estimate is where another healthy engine may be expected to show the mark.
func (h Healthy) Estimate() gum.Estimate { return h.spread().Estimate(h.Angle) }

// HoldAgainst is the marks with what healthy engines showed in place of their
// nominal angles; a mark that those lack keeps its own, and one without a limit
// takes theirs. A mark that is not the same in both is an error.
func HoldAgainst(marks []Mark, healthy []Healthy) ([]Mark, error) {
	held := make([]Mark, 0, len(marks))
	for i, m := range marks {
		for _, h := range healthy {
			if h.Name != m.Name {
				continue
			}
			here := Healthy{On: m.On, Against: m.Reference(), Measured: m.Off != nil}
			if problem := here.differs(h); problem != "" {
				return nil, ofMark(i, m, "%s: give it another name, or measure it the same way", problem)
			}
			m.Healthy = &h
			if !m.HasLimit {
				m.Limit, m.HasLimit = h.Limit, h.HasLimit
			}
		}
		held = append(held, m)
	}
	return held, nil
}
