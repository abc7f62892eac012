package practice

import (
	"fmt"
	"math"
	"slices"

	"evendrop/cmd/internal/practice/cams"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// Answer is the truth about a practice job, and the wrong answers that lie in wait.
type Answer struct {
	Seed   uint64   `toml:"seed"`
	TDC    float64  `toml:"tdc_deg"`
	Limit  float64  `toml:"limit_deg" comment:"an answer this near is right"`
	Stroke float64  `toml:"stroke_mm"`
	Rod    float64  `toml:"rod_mm"`
	Offset float64  `toml:"offset_mm"`
	Lash   float64  `toml:"lash_mm"`
	Tilt   float64  `toml:"tilt_deg"`
	Scale  float64  `toml:"gauge_scale"`
	Turns  []string `toml:"turns"`
	Pin    *float64 `toml:"pin_late_deg,omitempty"`
	Typos  []Typo   `toml:"typo"`
	Traps  []Trap   `toml:"trap"`

	Lobes []cams.Answer `toml:"lobe,omitempty"`
}

// Valid tells whether an answer is one that Make made: angles of one turn, and a
// limit above 0.
func (a Answer) Valid() bool {
	onScale := func(degrees float64) bool { return math.Abs(degrees) <= 360 }
	return onScale(a.TDC) && a.Limit > 0 && onScale(a.Limit) &&
		!slices.ContainsFunc(a.Traps, func(t Trap) bool { return t.TDC != nil && !onScale(*t.TDC) }) &&
		!slices.ContainsFunc(a.Lobes, func(l cams.Answer) bool { return !l.Valid() })
}

// Typo is a mistyped reading.
type Typo struct {
	Line  int     `toml:"line"`
	Depth float64 `toml:"depth_mm"`
	Meant float64 `toml:"should_be_mm"`
}

// Trap is a way to go wrong, and where it leads with these readings.
type Trap struct {
	Name string   `toml:"name"`
	TDC  *float64 `toml:"tdc_deg,omitempty" comment:"what it gives"`
	Why  string   `toml:"why"`
}

// Job is a practice job with its answer.
type Job struct {
	Readings []Taken
	Pin      []float64 // protractor readings with the locking pin in line; empty: none
	Lobes    []cams.Job
	Answer   Answer
}

// firstLine is the line of the readings file on which the first reading stands.
const firstLine = 3

// Make is the job of a plan. A plan that cannot be is an error.
func (p Plan) Make() (Job, error) {
	b, err := p.bench()
	if err != nil {
		return Job{}, err
	}
	j := Job{Readings: b.take()}
	b.mistype(j.Readings)
	a := Answer{
		Seed: p.Seed, TDC: shown(b.tdc), Stroke: p.Stroke.Millimetres(), Rod: p.Rod.Millimetres(), Offset: p.Offset.Millimetres(),
		Lash: p.Lash.Millimetres(), Tilt: places(p.Tilt.Degrees(), 3), Scale: places(p.scale(), 4),
	}
	for _, turn := range p.Turns {
		a.Turns = append(a.Turns, turn.String())
	}
	for i, r := range j.Readings {
		if r.Depth != r.meant {
			a.Typos = append(a.Typos, Typo{firstLine + i, places(r.Depth, 2), places(r.meant, 2)})
		}
	}
	if p.Pin != nil {
		a.Pin = new(places(p.Pin.Degrees(), 3))
		for range 3 {
			at := (b.tdc + *p.Pin).Degrees() + within(b.rng, evidence.DefaultProtractor().Error.Degrees())
			j.Pin = append(j.Pin, rounded(shown(geometry.Angle(at)*geometry.Degree), 0.5))
		}
	}
	result, err := tdc.Find(p.setup(), evidence.Cylinder{Number: 1, Readings: j.evidence()})
	if err != nil {
		return Job{}, fmt.Errorf("these readings tell nothing: %w", err)
	}
	a.Limit = limit(result, b.tdc)
	a.Traps = b.traps(j, result)
	j.Lobes, err = cams.Make(p.Seed, p.Cams, cams.Bench{TDC: b.tdc, Result: result, Protractor: evidence.DefaultProtractor()})
	for _, l := range j.Lobes {
		a.Lobes = append(a.Lobes, l.Answer)
	}
	j.Answer = a
	return j, err
}

// setup is what the learner is told of engine and instruments.
func (p Plan) setup() evidence.Setup {
	return evidence.Setup{
		Engine:     evidence.Engine{Stroke: p.Stroke, Rod: p.Rod, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
}

func (j Job) evidence() (list []evidence.Reading) {
	for i, r := range j.Readings {
		list = append(list, evidence.Reading{
			Angle: geometry.Angle(r.Angle) * geometry.Degree, Depth: geometry.Length(r.Depth), Turn: r.Turn, Line: firstLine + i,
		})
	}
	return list
}

// limit is how near an answer must be, degrees: the 95 % half-width of what the
// readings can tell, and no less than their own luck, up to the next tenth.
func limit(result tdc.Result, truth geometry.Angle) float64 {
	luck := math.Abs((result.TDC.Angle - truth).Signed().Degrees())
	return places(math.Ceil(10*math.Max(result.TDC.Expanded.Degrees(), luck))/10, 1)
}

// shown is an angle as the protractor shows it, 0 to 360 degrees, to a thousandth.
func shown(a geometry.Angle) float64 { return places(a.Positive().Degrees(), 3) }

func places(x float64, n int) float64 { return math.Round(x*math.Pow10(n)) / math.Pow10(n) }

// Marked is a learner's answer against the truth.
type Marked struct {
	Answer
	Given float64 // degrees, as the protractor shows them
	Off   float64 // degrees, late positive
	Near  *Trap   // the trap that the answer seems to have come from; nil: none
}

// Within tells whether the answer is right.
func (m Marked) Within() bool { return m.OffAsShown() <= m.Limit+1e-9 }

// OffAsShown is how far off the answer is, whichever way, in hundredths of a degree: finer than
// anybody reads, and as it is shown. 0.401 is no worse than 0.4.
func (m Marked) OffAsShown() float64 { return places(math.Abs(m.Off), 2) }

// asRead is how near to each other two answers may be, degrees, and be the same:
// half a step of the protractor.
const asRead = 0.25

// Mark holds an angle against the answer. A wrong one that lies near to where a
// trap leads, and nearer than to the truth, is laid to that trap.
func (a Answer) Mark(given geometry.Angle) Marked {
	m := Marked{Answer: a, Given: shown(given), Off: apart(given.Degrees(), a.TDC)}
	if m.Within() {
		return m
	}
	nearest := math.Max(a.Limit, asRead)
	for i, t := range a.Traps {
		if t.TDC == nil {
			continue
		}
		off := math.Abs(apart(given.Degrees(), *t.TDC))
		if off <= nearest && off < math.Abs(m.Off) {
			m.Near, nearest = &a.Traps[i], off
		}
	}
	return m
}

// apart is how far x is after y, degrees, within half a turn.
func apart(x, y float64) float64 {
	return (geometry.Angle(x-y) * geometry.Degree).Signed().Degrees()
}
