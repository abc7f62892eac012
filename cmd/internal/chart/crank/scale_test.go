package crank

import (
	"math"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// rounding is of an angle read off a picture: a hundredth of a unit, and halves of it, at
// radii of 90 and more.
const rounding = 0.02

// face is a picture read: its centre, and how many times too large it says it is.
type face struct {
	all    []seen
	centre draw.Spot
	times  float64
	half   float64 // degrees that its arcs reach to either side
}

func faceOf(t *testing.T, marks []Mark) face {
	t.Helper()
	f := face{}
	f.all, _ = pictured(t, marks)
	said := ""
	for _, s := range f.all {
		switch {
		case s.name == "circle" && s.is("text") && s.title == "":
			f.centre = s.middle()
		case s.name == "text" && s.title == "":
			said += s.text + " "
		}
	}
	for words, times := range map[string]float64{"to scale": 1, "two times": 2, "three times": 3, "five times": 5, "ten times": 10, "twenty times": 20} {
		if strings.Contains(said, "Angles drawn "+words) {
			require.Zero(t, f.times)
			f.times = times
		}
	}
	require.NotZero(t, f.times, "the picture says how large its angles are drawn: %s", said)
	for _, s := range f.all {
		if s.is("body") {
			f.half = math.Abs(f.angle(s.corners[0]))
		}
	}
	return f
}

// angle is a spot's, in degrees clockwise from the top.
func (f face) angle(s draw.Spot) float64 {
	return math.Atan2(s.X-f.centre.X, f.centre.Y-s.Y) * 180 / math.Pi
}

// signs are those of what is and of what was, in the order of the lanes.
func (f face) signs() (now, was []seen) {
	for _, s := range f.all {
		switch {
		case s.name == "sign":
			now = append(now, s)
		case s.is("ghost"):
			was = append(was, s)
		}
	}
	return now, was
}

// in are the things in a lane's group that have a class.
func (f face) in(title, class string) (out []seen) {
	for _, s := range f.all {
		if s.title == title && s.is(class) {
			out = append(out, s)
		}
	}
	return out
}

// Every sign stands where the crank does when its mark lines up, late clockwise, the angle
// as many times as large as the picture says, before and after alike; or at the fan's end,
// with an arrow outward and the number beside it.
func TestSignsStandWhereTheyBelong(t *testing.T) {
	everySet(t, func(name string, marks []Mark) {
		f := faceOf(t, marks)
		now, was := f.signs()
		require.Len(t, now, len(marks))
		for i, m := range inOrder(t, marks) {
			require.True(t, strings.HasPrefix(now[i].title, draw.Clean(m.Name)), name)
			f.stands(t, name, now[i], m.Off)
			if f.angle(now[i].middle()) < f.times*m.Off-rounding || f.angle(now[i].middle()) > f.times*m.Off+rounding {
				words := f.in(now[i].title, "strong")
				require.Len(t, words, 1, "%s: a mark beyond the picture has its number", name)
				require.True(t, strings.HasPrefix(words[0].text, figure(m.Says)), "%s: %q of %q", name, words[0].text, m.Says)
				require.Contains(t, Picture{Marks: marks}.Caption(), "farther off than the picture shows")
			}
			if m.Was != nil && math.Abs(f.times*m.Was.Off) > f.half {
				said := ""
				for _, words := range f.in(now[i].title, "small") {
					said += words.text + "\n"
				}
				require.Contains(t, said, figure(m.Was.Says), "%s: what was beyond the picture has its number", name)
			}
			if len(was) > 0 && was[0].title == now[i].title && m.Was != nil {
				f.stands(t, name, was[0], m.Was.Off)
				was = was[1:]
			}
		}
	})
}

// stands asks that a sign is where its angle is drawn, or at the end with an arrow.
func (f face) stands(t *testing.T, name string, sign seen, off float64) {
	at := f.angle(sign.middle())
	if math.Abs(at-f.times*off) <= rounding {
		return
	}
	require.Greater(t, f.times*off*math.Copysign(1, off), math.Abs(at), "%s: %g deg at %g", name, off, at)
	require.Equal(t, math.Signbit(off), math.Signbit(at), name)
	require.Greater(t, math.Abs(off), f.half-20, "%s: what scale 1 holds is never beyond", name)
	outward := 0
	for _, head := range f.all {
		if head.title == sign.title && head.head() && math.Abs(f.angle(head.corners[0])) > math.Abs(at) {
			outward++
			require.Greater(t, math.Abs(f.angle(head.corners[0])), math.Abs(f.angle(head.corners[1])), "the arrow points outward")
		}
	}
	require.NotZero(t, outward, name)
}

// The numbers round the rim are true crank degrees.
func TestRimIsTrue(t *testing.T) {
	for name, marks := range invented() {
		f, found := faceOf(t, marks), 0
		for _, s := range f.all {
			if s.is("quiet") {
				found++
				at := f.angle(s.middle())
				require.InDelta(t, f.times*numbers(t, s.text)[0], math.Abs(at), 1, "%s: %s", name, s.text) // words stand by their middle to some units of 200
			}
		}
		require.GreaterOrEqual(t, found, 4, name)
	}
}

// The allowed band and the interval that was measured reach as far as they are, at the
// picture's scale; a bar that its sign would hide is left out.
func TestBandsAndBarsReachAsFar(t *testing.T) {
	bars := 0
	everySet(t, func(name string, marks []Mark) {
		f := faceOf(t, marks)
		now, _ := f.signs()
		var boxes []seen
		for _, s := range f.all {
			if s.is("member") && s.name == "path" && s.title == "" && len(s.corners) != 4 {
				boxes = append(boxes, s)
			}
		}
		for i, m := range inOrder(t, marks) {
			if band := f.times * m.Limit; band > 2 && band < f.half {
				require.NotEmpty(t, boxes, name)
				require.InDelta(t, band, -f.angle(boxes[0].corners[0]), rounding, name)
			}
			if m.Limit > 0 && f.times*m.Limit < f.half {
				boxes = boxes[1:]
			}
			line := append(f.in(now[i].title, "heavy"), f.in(now[i].title, "suspect")...)
			bar := f.times * m.Half
			if len(line) == 0 {
				if math.Abs(f.times*m.Off) < f.half-20 {
					require.Less(t, bar, 9.0, "%s: a bar of %g deg is hidden", name, bar) // half a sign at the least radius is 6.5
				}
				continue
			}
			bars++
			ends := line[0].corners
			from, to := f.angle(ends[0]), f.angle(ends[len(ends)-1])
			if m.Was != nil && math.Abs(f.times*m.Was.Off) > f.half-20 { // a sign at the end cuts the bar
				require.GreaterOrEqual(t, from, f.times*m.Off-bar-rounding)
				require.LessOrEqual(t, to, f.times*m.Off+bar+rounding)
				continue
			}
			require.InDelta(t, math.Max(-f.half, f.times*m.Off-bar), from, rounding, name)
			require.InDelta(t, math.Min(f.half, f.times*m.Off+bar), to, rounding, name)
		}
	})
	require.Greater(t, bars, 100)
}

// Angles are drawn as large as the marks allow, with their names whole.
func TestExaggeration(t *testing.T) {
	for name, want := range map[string]float64{"flywheel": 10, "repaired": 10, "tooth": 3, "one": 20, "two": 10, "zero": 10, "far": 1, "early": 10} {
		require.Equal(t, want, faceOf(t, invented()[name]).times, name)
	}
	said := map[float64]string{1: "to scale", 3: "three times too large", 20: "twenty times too large"}
	for _, name := range []string{"far", "tooth", "one"} {
		p := Picture{Title: "crank", Marks: invented()[name]}
		want := "Angles are drawn " + said[faceOf(t, p.Marks).times] + "."
		require.Contains(t, p.Caption(), want)
		_, described := pictured(t, p.Marks)
		require.Contains(t, described, want)
	}
	far := []Mark{{Name: "pin", Off: 0.3, Limit: 1, Says: "0.3° late"}, {Name: "gap", Off: 90, Limit: 1, Says: "90.0° late"}}
	require.Greater(t, faceOf(t, far).times, 5.0, "a mark that no scale holds does not shrink the others")
}

// Before a repair and after it are drawn to one scale, the dashed sign with an arrow to the
// other; what hardly moved has none, and the caption says so.
func TestBeforeAndAfter(t *testing.T) {
	marks := invented()["repaired"]
	f := faceOf(t, marks)
	now, was := f.signs()
	require.Len(t, was, 2)
	for i, before := range was {
		after := now[i+1] // the second and third mark have moved
		require.Equal(t, after.title, before.title)
		var tip draw.Spot
		for _, s := range f.in(before.title, "text") {
			if s.head() {
				tip = s.corners[0]
				require.Less(t, f.angle(tip), f.angle(s.corners[1]), "it points to what is")
			}
		}
		require.Less(t, f.angle(after.middle()), f.angle(tip))
		require.Less(t, f.angle(tip), f.angle(before.middle()))
	}
	caption := Picture{Marks: marks}.Caption()
	require.Contains(t, caption, "Dashed: before. Solid: now.")
	require.Contains(t, caption, "A mark without a dashed shape has hardly moved.")
	require.NotContains(t, Picture{Marks: invented()["flywheel"]}.Caption(), "Dashed")
	once := Mark{Name: "pin", Off: 3, State: doc.Outside, Says: "3.0° late"}
	wide := once
	wide.Was = &Was{Off: 12, State: doc.Outside, Says: "was 12.0°"}
	require.Less(t, faceOf(t, []Mark{wide}).times, faceOf(t, []Mark{once}).times, "what was is held by the fan too")
}

// Teeth of a wheel stand on the rim a pitch apart, at the scale of the marks, one of them at
// top dead centre, and the caption says what they are; none are drawn that would touch.
func TestTeethStandAPitchApart(t *testing.T) {
	p := Picture{Marks: invented()["tooth"], Tooth: 360.0 / 21}
	svg, err := p.SVG()
	require.NoError(t, err)
	all, _ := read(t, svg)
	f := faceOf(t, p.Marks)
	var at []float64
	for _, s := range all {
		if s.is("metal") && len(s.corners) == 4 {
			at = append(at, f.angle(draw.At((s.corners[1].X+s.corners[2].X)/2, (s.corners[1].Y+s.corners[2].Y)/2)))
		}
	}
	require.InDeltaSlice(t, []float64{0, -f.times * p.Tooth, f.times * p.Tooth}, at, rounding)
	require.Contains(t, p.Caption(), "a wheel's teeth, at their true pitch")
	p.Tooth = 1
	svg, err = p.SVG()
	require.NoError(t, err)
	all, _ = read(t, svg)
	for _, s := range all {
		require.False(t, s.is("metal") && len(s.corners) == 4)
	}
	require.NotContains(t, p.Caption(), "teeth")
	p.Tooth = math.NaN()
	_, err = p.SVG()
	require.ErrorContains(t, err, "a tooth of NaN")
}

// Words of what is never stand beside the sign of what was.
func TestWordsStandBesideTheirSign(t *testing.T) {
	checked := 0
	everySet(t, func(name string, marks []Mark) {
		f := faceOf(t, marks)
		now, _ := f.signs()
		for _, sign := range now {
			ghosts, words := f.in(sign.title, "ghost"), f.in(sign.title, "strong")
			if len(ghosts) != 1 || len(words) != 1 || math.Abs(f.angle(sign.middle())) > f.half-12 { // one at the end has them where there is room
				continue
			}
			checked++
			first, last := words[0].quads[0], words[0].quads[len(words[0].quads)-1]
			at, is, was := (f.angle(first[0])+f.angle(last[1]))/2, f.angle(sign.middle()), f.angle(ghosts[0].middle())
			require.Less(t, (at-is)*(was-is), 0.0, "%s: %s", name, sign.title)
		}
	})
	require.Greater(t, checked, 20)
}

// Where the marks as given allow a small scale alone, those that need room go outside.
func TestRoomyBodiesGoOutside(t *testing.T) {
	given := invented()["flywheel"]
	marks := []Mark{given[2], given[1], given[3], given[0]} // flywheel, pulley, cam
	require.Equal(t, 10.0, faceOf(t, marks).times)
	var bodies []string
	for _, m := range inOrder(t, marks) {
		bodies = append(bodies, m.Body)
	}
	require.Equal(t, []string{"flywheel", "flywheel", "cam", "pulley"}, bodies)
	require.Equal(t, given, inOrder(t, given), "where nothing is gained they stand as given")
}
