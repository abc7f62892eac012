package motion

import (
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// Chords is why half-way between equal depths is TDC, and what an offset and lash make of it:
// an engine turned one way and the other.
type Chords struct {
	Motion
	lash geometry.Length
}

// chordsAt are the crank angles from TDC near which chords are drawn, degrees.
var chordsAt = []float64{9, 14, 19, 24}

// SeenLash is as much lash as can be seen well, more than an engine should have.
func (m Motion) SeenLash() geometry.Length {
	return geometry.Length(math.Round(100*float64(m.engines[0].Stroke()/110)) / 100)
}

// Chords is the picture's question. More than one engine, and lash that lifts the piston over
// the highest chord, are errors.
func (m Motion) Chords(lash geometry.Length) (Chords, error) {
	e := m.engines[0]
	most := 1.5 * e.Drop(geometry.Angle(chordsAt[0])*geometry.Degree) // the hang over the top is above the highest chord
	switch {
	case len(m.engines) > 1:
		return Chords{}, usage.Errorf("--chords draws one engine, and was given %d: leave one of them", len(m.engines))
	case !(lash >= 0 && lash <= most):
		return Chords{}, usage.Errorf("--lash %s: expected a clearance of zero or more, up to %s, as can be drawn", m.bench().Stated(lash), m.bench().Stated(geometry.Length(math.Floor(100*float64(most))/100)))
	}
	return Chords{m, lash}, nil
}

// chord is the places at which the piston is equally deep.
type chord struct {
	depth             geometry.Length
	forward, backward geometry.Angle // half-way turned that way, from TDC
	early, late       geometry.Angle // its farthest ends
}

// bothWays is half-way of both ways together.
func (c chord) bothWays() geometry.Angle { return (c.forward + c.backward) / 2 }

// chord is the one at a depth. The piston lags by half the lash: rising it is lower than the
// crank has it and falling higher, so that turned forward both ends come late.
func (c Chords) chord(depth geometry.Length) (chord, error) {
	above, err := c.ends(depth - c.lash/2)
	if err != nil {
		return chord{}, err
	}
	below, err := c.ends(depth + c.lash/2)
	return chord{
		depth:   depth,
		forward: (above[0] + below[1]) / 2, backward: (below[0] + above[1]) / 2,
		early: below[0], late: below[1],
	}, err
}

// ends is where the crank alone has the piston at a drop.
func (c Chords) ends(drop geometry.Length) (ends [2]geometry.Angle, err error) {
	ends[0], ends[1], err = c.engines[0].AnglesAt(drop)
	return ends, err
}

// chords is those that are drawn.
func (c Chords) chords() (list []chord, err error) {
	for _, u := range chordsAt {
		one, err := c.chord(c.engines[0].Drop(geometry.Angle(u) * geometry.Degree))
		if err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	return list, nil
}

// Picture is the curves and their chords as SVG. An error is of ends that the stroke has
// not, or the chart's.
func (c Chords) Picture() ([]byte, error) {
	chords, err := c.chords()
	if err != nil {
		return nil, err
	}
	c.from, c.to = -30*geometry.Degree, 30*geometry.Degree
	forward := chart.Series{Name: "half-way, forward", With: 1}
	backward := chart.Series{Name: "half-way, backward", With: 2}
	both := chart.Series{Name: "half-way of both", With: 4}
	picture := c.drops()
	picture.Title, picture.Description = c.title(), c.describes(chords)
	picture.Series = []chart.Series{c.turned("turned forward", 1), c.turned("turned backward", -1)}
	picture.X.Named = []chart.Named{{At: 0, Name: "TDC"}}
	picture.Y.Label = "piston below its highest point, " + c.bench().Unit()
	for _, one := range chords {
		depth := c.bench().In(one.depth)
		at := func(u geometry.Angle) chart.Point { return chart.Point{X: u.Degrees(), Y: depth} }
		picture.Series = append(picture.Series, chart.Series{Line: true, Fine: true, With: 6, Points: []chart.Point{at(one.early), at(one.late)}})
		forward.Points = append(forward.Points, at(one.forward))
		backward.Points = append(backward.Points, at(one.backward))
		both.Points = append(both.Points, at(one.bothWays()))
	}
	picture.Series = append(picture.Series, forward, backward, both)
	return picture.SVG()
}

// title says what is seen: an offset moves half-way of both ways as well.
func (c Chords) title() string {
	title := "Half-way between equal depths is TDC"
	if off := c.engines[0].halfWay(c.deepest()); off != 0 {
		title = "Half-way with an offset is not quite TDC"
	}
	if c.lash == 0 {
		return title + "; drawn without lash"
	}
	return title + "; drawn with lash of " + c.bench().Stated(c.lash)
}

// deepest is the drop of the lowest chord.
func (m Motion) deepest() geometry.Length {
	return m.engines[0].Drop(geometry.Angle(chordsAt[len(chordsAt)-1]) * geometry.Degree)
}

// halfWay is where half-way between the angles of one drop lies, from TDC; zero without an offset.
func (e engine) halfWay(drop geometry.Length) geometry.Angle {
	before, after, err := e.AnglesAt(drop)
	if err != nil || e.Offset() == 0 {
		return 0
	}
	return (before + after) / 2
}

// turned is the piston's curve with the crank turned one way: 1 forward, -1 backward. Over the
// top it hangs until the lash is used up.
func (c Chords) turned(name string, way geometry.Angle) chart.Series {
	return c.curve(name, func(u geometry.Angle) geometry.Length {
		drop := c.engines[0].Drop(u)
		if u*way < 0 {
			return drop + c.lash/2
		}
		return max(drop-c.lash/2, min(drop+c.lash/2, c.lash/2))
	})
}

// describes is the picture in words.
func (c Chords) describes(chords []chord) string {
	var depths []string
	for _, one := range chords {
		depths = append(depths, fmt.Sprintf("at %s %s it is %s deg turned forward, %s turned backward, %s of both", c.length(c.engines[0], one.depth), c.bench().Unit(),
			words.Signed(one.forward.Degrees(), 2), words.Signed(one.backward.Degrees(), 2), words.Signed(one.bothWays().Degrees(), 2)))
	}
	lash, cancels := "without lash", ""
	if c.lash > 0 {
		lash = "with lash of " + c.bench().Stated(c.lash)
		cancels = " One way the marks come late in that direction, most near the top; both ways together the lash cancels."
	}
	return fmt.Sprintf("Two curves of the piston's depth against crank degrees from TDC, turned forward and turned backward, %s. "+
		"Level lines join places of equal depth, and marks show what lies half-way: %s.%s", lash, strings.Join(depths, "; "), cancels)
}
