package session_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/plan"
)

// memory is a store that is no file, as a page's may be.
type memory struct {
	setup    evidence.Setup
	readings []evidence.Reading
	line     int
	remarks  []string
	news     string
	fails    error
	lost     int
	taken    bool
}

func (m *memory) Readings() ([]evidence.Reading, error) { return m.readings, m.fails }

func (m *memory) Add(e sheet.Entry) ([]evidence.Reading, error) {
	if m.fails != nil {
		return nil, m.fails
	}
	r, err := m.read(e)
	if err != nil {
		return nil, err
	}
	m.line++
	r.Line = m.line
	m.readings = append(m.readings, r)
	return m.readings, nil
}

// over is a reading with an entry put over it.
func (m *memory) over(r evidence.Reading, e sheet.Entry) (evidence.Reading, error) {
	whole := e
	if e.Angle == "" {
		whole.Angle = "0"
	}
	if e.Depth == "" {
		whole.Depth = "0"
	}
	typed, err := m.read(whole)
	if e.Angle != "" {
		r.Angle = typed.Angle
	}
	if e.Depth != "" {
		r.Depth = typed.Depth
	}
	if e.Turn != 0 {
		r.Turn = e.Turn
	}
	if e.Note != "" {
		r.Note = e.Note
	}
	return r, err
}

// read is an entry as a reading.
func (m *memory) read(e sheet.Entry) (evidence.Reading, error) {
	written, err := measure.ParseAngle(e.Angle)
	if err != nil {
		return evidence.Reading{}, err
	}
	angle, err := m.setup.Protractor.Crank(written)
	if err != nil {
		return evidence.Reading{}, err
	}
	depth, err := measure.ParseLength(e.Depth, "mm")
	return evidence.Reading{Angle: angle, Depth: depth, Turn: e.Turn, Note: e.Note, Set: e.Set}, err
}

func (m *memory) Remark(text string) error {
	m.remarks = append(m.remarks, text)
	return m.fails
}

func (m *memory) Correct(c sheet.Correction) (done sheet.Corrected, all []evidence.Reading, err error) {
	if m.fails != nil {
		return done, nil, m.fails
	}
	if c.Strike != nil {
		i := sheet.Place(m.readings, *c.Strike)
		if i < 0 {
			return done, m.readings, sheet.ErrGone
		}
		done.Struck = &sheet.Struck{Row: c.Why, Line: m.readings[i].Line, Reading: m.readings[i]}
		m.readings = slices.Delete(slices.Clone(m.readings), i, i+1)
	}
	var comes evidence.Reading
	switch {
	case c.Type != nil:
		if comes, err = m.over(*c.Strike, *c.Type); err != nil {
			return done, nil, err
		}
	case c.Revive != nil:
		comes = c.Revive.Reading
	default:
		return done, m.readings, nil
	}
	i, _ := slices.BinarySearchFunc(m.readings, comes.Line, func(r evidence.Reading, line int) int { return r.Line - line })
	m.readings = slices.Insert(slices.Clone(m.readings), i, comes)
	done.Counts = &comes
	return done, m.readings, nil
}

func (m *memory) TakeAsIs() { m.taken = true }

func (m *memory) News() string {
	news := m.news
	m.news = ""
	return news
}

func (m *memory) Lost() int { return m.lost }

// sitting is a session at an invented engine.
func sitting(patient bool) (*session.Session, *memory) {
	setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
	setup.Engine = evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)}
	store := &memory{setup: setup}
	return &session.Session{
		Job:    job.Job{Setup: setup, Unit: "mm", Cylinders: []evidence.Cylinder{{Number: 1}}},
		Number: 1, File: "here", Store: store, Ground: plan.Ground{Deepest: 8}, Width: 60, Patient: patient,
	}, store
}

// reading is a line for a crank at u deg from TDC at 5 deg, whose piston is at the
// slider-crank's drop.
func reading(t *testing.T, u float64) string { return readingAt(t, 5, u) }

// readingAt is reading with TDC at top deg.
func readingAt(t *testing.T, top, u float64) string {
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	return fmt.Sprintf("%.2f %.3f", u+top, float64(crank.Drop(geometry.Angle(u)*geometry.Degree)))
}

// words are what was said of a kind.
func words(said []session.Said, kind session.Kind) string {
	var parts []string
	for _, s := range said {
		if s.Kind == kind {
			parts = append(parts, s.Text)
		}
	}
	return strings.Join(parts, "\n")
}
