package bench

import (
	"fmt"
	"hash/fnv"

	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// points are the TDCs that were reckoned, by a sum over what they were reckoned from.
type points map[uint64]past

// past is TDC after so many readings.
type past struct {
	tdc  gum.Estimate
	sure bool
	none bool // the readings do not tell it
}

// least is how few readings TDC is asked of.
const least = 3

// mostAtOnce is how many of the past are reckoned in one go, at most.
const mostAtOnce = 50

// historyOf is TDC after so many readings.
func (c *Core) historyOf(r Request) (Response, error) {
	s := c.open
	at := s.Now()
	cylinder := s.Cylinder()
	sums := sumsOf(at.Job.Setup, cylinder)
	if s.points == nil {
		s.points = points{}
	}
	n := len(cylinder.Readings)
	left := min(max(1, r.Most), mostAtOnce)
	if at.Result != nil && n >= least {
		s.points[sums[n]] = past{at.Result.TDC, sure(*at.Result), false}
	}
	out := &History{Points: []Point{}, Whole: true}
	for k := n; k >= least; k-- {
		if _, known := s.points[sums[k]]; known {
			continue
		}
		if left == 0 {
			out.Whole = false
			break
		}
		left--
		s.points[sums[k]] = after(at.Job.Setup, cylinder, k)
	}
	for k := least; k <= n; k++ {
		if p, known := s.points[sums[k]]; known && !p.none && at.Result != nil {
			out.Points = append(out.Points, point(at.Bench(), k, p, at.Result.TDC))
		}
	}
	return Response{History: out}, nil
}

// after is TDC by a cylinder's first k readings.
func after(setup evidence.Setup, c evidence.Cylinder, k int) past {
	c.Readings = c.Readings[:k]
	setup.Protractor = setup.Protractor.WrittenAs(c.Readings)
	r, err := tdc.Find(setup, c)
	if err != nil {
		return past{none: true}
	}
	return past{r.TDC, sure(r), false}
}

// point is a past TDC beside the one of now.
func point(b words.Bench, k int, p past, now gum.Estimate) Point {
	return Point{
		Readings: k, Text: b.ReadsWithin(p.tdc), At: b.Protractor.Grows((p.tdc.Angle - now.Angle).Signed()).Degrees(),
		Half: p.tdc.Expanded.Degrees(), Sure: p.sure,
	}
}

// sumsOf is a sum over what TDC is reckoned from by the first k readings, for every k.
func sumsOf(setup evidence.Setup, c evidence.Cylinder) []uint64 {
	h := fnv.New64a()
	readings := c.Readings
	c.Readings = nil
	fmt.Fprint(h, setup, c)
	sums := []uint64{h.Sum64()}
	for _, r := range readings {
		r.File, r.Line, r.Note = "", 0, ""
		fmt.Fprint(h, r)
		sums = append(sums, h.Sum64())
	}
	return sums
}
