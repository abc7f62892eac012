package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/chart/bars"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// InFull tells whether the pictures of the n-th cylinder's readings are worth their room
// beside the panels of all: those of the first, and of one of which something is found that
// is not found of the first too.
func (b Book) InFull(n int) bool {
	if n == 0 {
		return true
	}
	of := func(kind finding.Finding) func(finding.Finding) bool {
		return func(f finding.Finding) bool { return f.Kind() == kind.Kind() }
	}
	return slices.ContainsFunc(b.Results[n].Findings, func(f finding.Finding) bool {
		return !slices.ContainsFunc(b.Results[0].Findings, of(f))
	})
}

// cylinders is what the curve leaves of each cylinder's readings, a panel a cylinder.
func (b Book) cylinders() bars.Panels {
	p := bars.Panels{
		Title: "What the curve leaves of the readings",
		Description: "A small picture a cylinder, all on one scale: depth read minus the curve's, against crank angle from its own TDC. " +
			"Points that lie far from the line do not fit; a pattern that one cylinder alone has is its own.",
		X: sideOfTDC, Y: "depth read minus the curve's, " + b.Bench.Unit(),
	}
	turns := []evidence.TurnDirection{evidence.Forward, evidence.Backward}
	for _, r := range b.Results {
		one := bars.Panel{Name: fmt.Sprintf("Cylinder %d", r.Number), Says: b.panelSays(r), Shade: measured(0, r.TDC.Expanded)}
		for _, j := range r.Readings {
			one.Points = append(one.Points, bars.Point{
				X: r.FromTDC(j.Angle).Degrees(), Y: b.Bench.In(j.Residual), Kind: slices.Index(turns, j.Turn), Doubtful: j.Suspect,
			})
		}
		p.Panels = append(p.Panels, one)
	}
	for _, turn := range turns {
		p.Kinds = append(p.Kinds, "turned "+turn.String())
	}
	return p
}

// panelSays is where a cylinder's TDC is, by how many readings, and which do not fit.
func (b Book) panelSays(r tdc.Result) []string {
	says := []string{"TDC " + strings.TrimSuffix(b.tdcText(r), " deg") + "°", words.Count(len(r.Readings), "reading")}
	if len(r.Readings) == 0 {
		says[1] = "seen without a depth"
	}
	if r.CannotTell != nil {
		says[0] = "TDC cannot be determined"
	}
	if lines := suspectLines(r); lines != "" {
		says = append(says, "does not fit: "+lines)
	}
	return says
}

// throws is how far each cylinder's TDC comes from its place after the first one's.
func (b Book) throws() bars.Picture {
	p := bars.Picture{
		Title:       "How far each throw is off",
		Description: fmt.Sprintf("A bar a cylinder on one scale of crank degrees; zero is the throw's place after cylinder %d's, later is to the right.", b.Results[0].Number),
		Counted:     OffPlace,
	}
	p.Zero = fmt.Sprintf("its place after cylinder %d's", b.Results[0].Number)
	for _, t := range b.Throws[1:] {
		says := words.Off(t.Angle, t.Expanded)
		switch {
		case t.CannotTell:
			says += ", cannot be determined"
		case t.Moved:
			says += ", the protractor moved"
		default:
			says += ", " + string(t.Verdict)
		}
		bar := bars.Bar{Name: cylinderOf(t), Says: says, Measured: measured(t.Angle, t.Expanded), State: States[t.Verdict]}
		if limit := b.Limits.Throw; limit > 0 {
			bar.LimitFrom, bar.LimitTo = -limit.Degrees(), limit.Degrees()
			bar.Allowed = allowed(words.Plain(limit.Degrees()))
		}
		p.Bars = append(p.Bars, bar)
	}
	return p
}

func cylinderOf(t mark.JudgedThrow) string { return fmt.Sprintf("Cylinder %d", t.Cylinder) }

// crowns is how much lower each crown stands at TDC than the others.
func (b Book) crowns() bars.Picture {
	p := bars.Picture{
		Title:       "How far each crown stands from the others",
		Description: fmt.Sprintf("A bar a cylinder on one scale in %s, at TDC; zero is the middle one of the others, lower is to the right.", b.Bench.Unit()),
		Counted:     bars.Counted{Unit: b.Bench.Unit(), Low: "higher", High: "lower", Zero: "the others"},
	}
	for _, t := range b.Throws {
		off, half := b.Bench.In(geometry.Length(t.Crown.Value)), b.Bench.In(geometry.Length(t.Crown.Expanded))
		bar := bars.Bar{
			Name: cylinderOf(t), Measured: bars.Measured{At: off, From: off - half, To: off + half}, State: States[t.CrownVerdict],
			Says: fmt.Sprintf("%s %s %s, %s", words.Within(math.Abs(off), half), b.Bench.Unit(), words.Lower(off), t.CrownVerdict),
		}
		if limit := b.Bench.In(b.Limits.Crown); limit > 0 {
			bar.LimitFrom, bar.LimitTo = -limit, limit
			bar.Allowed = allowed(b.Bench.Number(b.Limits.Crown))
		}
		p.Bars = append(p.Bars, bar)
	}
	return p
}
