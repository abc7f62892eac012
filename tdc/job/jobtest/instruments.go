package jobtest

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// protractor is the wheel on the crank as it truly is.
type protractor struct {
	against       bool
	wraps         int
	sided         bool    // angles are written with BTDC or ATDC
	minutes       bool    // and in degrees and minutes
	turns         float64 // whole turns of the scale that are counted on, degrees
	step, bound   float64 // degrees
	wheel, phase  float64 // radians: centre over radius, and in which direction
	waves, offset float64 // of its graduation's error
}

// clean is the crank angle, degrees in the running direction from the wheel's zero,
// that a wheel without error of its own shows with the crank at t.
func (p protractor) clean(t float64) float64 {
	return (t + p.wheel*(math.Sin(t-p.phase)+math.Sin(p.phase))) / degree
}

// read is the crank angle as somebody reads it.
func (p protractor) read(t float64) float64 {
	shown := p.clean(t)
	own := p.bound * math.Sin(p.waves*shown*degree+p.offset)
	return math.Round((shown+own)/p.step) * p.step
}

// scale is what the job says of how the numbers come round.
func (p protractor) scale() int {
	if p.turns != 0 {
		return 720
	}
	return p.wraps
}

// reaches tells whether a crank angle is on the scale: quadrants end at 90 either way.
func (p protractor) reaches(crank float64) bool {
	return p.wraps != 90 || math.Abs(crank) <= 90
}

// written is a crank angle in the protractor's convention.
func (p protractor) written(crank float64) string {
	near := math.Remainder(crank, 360)
	if p.sided || p.wraps == 90 {
		side := " ATDC"
		if near < 0 {
			side = " BTDC"
		}
		return p.digits(math.Abs(near)) + side
	}
	if p.against {
		near = -near
	}
	if p.wraps == 360 && near < 0 {
		near += 360
	}
	return p.digits(near + p.turns)
}

func (p protractor) digits(degrees float64) string {
	whole, part := math.Modf(degrees)
	if minutes := math.Round(part * 60); p.minutes && degrees > 0 && minutes < 60 {
		return fmt.Sprintf("%.0f°%.0f'", whole, minutes)
	}
	return short(degrees)
}

// gauge is the instrument on the piston as it truly is.
type gauge struct {
	kind        string
	up          bool
	step, bound float64 // mm
	scale       float64 // what it shows of a millimetre
	unit        float64 // mm in the job's unit
}

// read is a depth as it is written: the piston lower by low than it can be, the gauge
// showing zero there, an error of part of its bound.
func (g gauge) read(low, zero, part float64) string {
	shown := zero + g.scale*low + part*g.bound
	if g.up {
		shown = zero - g.scale*low + part*g.bound
	}
	return short(math.Round(shown/g.step) * g.step / g.unit)
}

// short is a number with as many decimals as it needs, up to five.
func short(x float64) string {
	text := strconv.FormatFloat(math.Round(x*1e5)/1e5, 'f', -1, 64)
	if strings.Trim(text, "-0.") == "" {
		return "0"
	}
	return text
}
