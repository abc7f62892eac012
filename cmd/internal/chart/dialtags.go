package chart

import (
	"math"
	"slices"
	"strconv"
)

// tags draws a number outside for each mark, moved apart where they would touch,
// with a line to the mark.
func (f *face) tags() {
	for n, at := range f.tagAngles() {
		m := f.Marks[n]
		on := f.polar(f.turned(m.At), f.laneRadius(n)+4)
		elbow := f.polar(f.turned(m.At), f.outer+2)
		tag := f.polar(at, f.tagDistance())
		f.path("leader", []spot{on, elbow, tag}, false)
		f.tag(n, tag)
	}
}

func (f *face) tagDistance() float64 { return f.outer + 2*tagRadius }

// tag draws mark n's number in a circle, in a square where it is an alarm.
func (f *face) tag(n int, at spot) {
	if f.Marks[n].Alarm {
		f.rect("tag alarmed heavy", box{at.x, at.y, at.x, at.y}.grown(tagRadius-0.5))
	} else {
		f.circle("tag", at, tagRadius)
	}
	f.words("text small strong", "middle", spot{at.x, at.y + smallSize*0.35}, strconv.Itoa(n+1))
}

// tagAngles is where the tags go, in degrees of the picture. Round a whole
// circle they keep to the side of 180 deg that their marks lie on.
func (f *face) tagAngles() []float64 {
	size := (2*tagRadius + 6) / f.tagDistance() * 180 / math.Pi
	wanted, sizes := make([]float64, len(f.Marks)), make([]float64, len(f.Marks))
	for n, m := range f.Marks {
		wanted[n], sizes[n] = f.turned(m.At), size
	}
	low, high := -openedTo/2-size, openedTo/2+size
	if f.whole360 {
		low, high = -180, 180
		for n := range wanted {
			wanted[n] = math.Remainder(wanted[n], 360)
		}
	}
	return spread(wanted, sizes, low, high)
}

// list names the marks under the dial, and returns where it ends.
func (f *face) list() float64 {
	const left = margin + 2*tagRadius + 8
	y := f.foot + 12
	for n, m := range f.Marks {
		f.tag(n, spot{margin + tagRadius, y + tagRadius})
		at := spot{left, y + tagRadius + textSize*0.35}
		at.y = f.lines("text strong", "start", at, textSize, wrapped(m.Name, pictureWidth-left-margin, textSize*bold, 2))
		if m.Detail != "" {
			at.y = f.lines("text", "start", at, textSize, wrapped(m.Detail, pictureWidth-left-margin, textSize, 3))
		}
		y = at.y - tagRadius - textSize*0.35 + 8
	}
	f.key(&y)
	return y + margin
}

// key says what the arcs are.
func (f *face) key(y *float64) {
	const wide = 30.0
	for _, k := range []struct{ class, says string }{
		{"limit", "allowed"}, {"reach", "where the mark lies (95 %)"},
	} {
		at := *y + textSize*0.5
		f.line(k.class, spot{margin, at}, spot{margin + wide, at})
		f.words("quiet small", "start", spot{margin + wide + 8, at + smallSize*0.35}, k.says)
		*y += textSize * lineHeight
	}
	if slices.ContainsFunc(f.Marks, func(m DialMark) bool { return m.Alarm }) {
		f.words("quiet small", "start", spot{margin, *y + textSize*0.85}, "Crossed, its number in a square: outside what is allowed")
		*y += textSize * lineHeight
	}
}
