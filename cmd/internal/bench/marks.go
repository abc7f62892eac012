package bench

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
)

// marksOf is what the marks and lobes are by the readings so far.
func (c *Core) marksOf(Request) (Response, error) {
	out := &Marks{Look: []string{}, Notes: []string{}, Marks: []Mark{}, Measured: []Mark{}, Lobes: []Lobe{}, Ticks: []Tick{}}
	f, err := c.open.Found()
	switch {
	case err != nil:
		out.Untold = words.Capital(words.Problem(err)) + "."
	default:
		out.take(f)
	}
	out.lay()
	legibly(out)
	return Response{Marks: out}, nil
}

// take takes what was found.
func (out *Marks) take(f find.Answer) {
	out.Headline, out.Look = f.AtBench(), append(out.Look, f.ToLookAt()...)
	if why := f.NotJudged(); why != "" {
		out.Untold = words.Capital(why) + "."
	}
	out.Notes = append(append(out.Notes, f.Bench().Findings(f.Diagnosis.Notes)...), lacking(f)...)
	for _, m := range f.Marks {
		out.Marks = append(out.Marks, markOf(f, m))
	}
	for _, m := range f.Measured {
		out.Measured = append(out.Measured, measuredOf(f, m))
	}
	for i, l := range f.Lobes {
		out.Lobes = append(out.Lobes, Lobe{
			Name: l.Name, Valve: string(l.Valve), Lifts: len(l.Readings), Says: f.LobeSentence(l.Name), Line: "lobe " + l.Name, Number: i,
		})
	}
}

// states are what verdicts are called over the border.
var states = map[mark.Verdict]string{mark.Within: "within", mark.Outside: "outside", mark.TooClose: "close"}

// markOf is a mark that is judged.
func markOf(f find.Answer, m mark.Judged) Mark {
	out := Mark{
		Name: m.Name, On: m.On, State: "none", Off: words.Off(m.Angle, m.Expanded), Says: f.Bench().Mark(m),
		At: m.Angle.Degrees(), Half: m.Expanded.Degrees(),
	}
	if state, judged := states[m.Verdict]; judged && m.HasLimit {
		out.State, out.Verdict = state, string(m.Verdict)
		out.Limit, out.Allowed = words.Plain(m.Limit.Degrees()), words.Stated(m.Limit)
	}
	if places := words.Decimals(m.Expanded.Degrees()); found.Located(m) {
		out.Read, out.Should = words.Fixed(m.Position.Degrees(), places), words.Fixed(m.Nominal.Degrees(), places)
	}
	return out
}

// measuredOf is a mark that is only measured.
func measuredOf(f find.Answer, m mark.Judged) Mark {
	read := words.Within(m.Position.Degrees(), m.Expanded.Degrees())
	return Mark{
		Name: m.Name, On: m.On, State: "none", Read: read, Says: fmt.Sprintf("%s: %s deg.", words.Capital(m.Name), read),
		At: m.Position.Degrees(), Half: m.Expanded.Degrees(),
	}
}

// lay lays out one scale for the bars of all marks that are judged.
func (out *Marks) lay() {
	var ends chart.Series
	for _, m := range out.Marks {
		reach := math.Max(math.Abs(m.At)+m.Half, m.Allowed)
		ends.Points = append(ends.Points, chart.Point{X: -math.Min(reach, m.Half-m.At+m.Allowed)}, chart.Point{X: reach}, chart.Point{X: -m.Allowed})
	}
	if len(ends.Points) == 0 {
		return
	}
	x, _, err := chart.Chart{X: chart.Axis{Angle: true}, Series: []chart.Series{ends}}.Scales()
	if err != nil {
		return // a bar without an end has no scale
	}
	zero, one := x.At(0), x.At(1)
	out.From, out.To = -zero/(one-zero), (1-zero)/(one-zero)
	for _, tick := range x.Ticks {
		out.Ticks = append(out.Ticks, Tick{tick, x.Label(tick)})
	}
}

// lacking is the lobes of which nothing can be said yet, each with why.
func lacking(f find.Answer) (list []string) {
	for _, l := range f.Job.Lobes {
		if lacks := f.LobeLacks(l.Name); lacks != "" {
			list = append(list, l.Name+": "+lacks)
		}
	}
	return list
}
