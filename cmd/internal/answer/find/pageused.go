package find

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// used is what the answer rests on: engine, instruments, files, and where the
// nominal angles came from.
func (p Page) used() []fact {
	s := p.Job.Setup
	facts := []fact{
		{"Engine", engineText(s.Engine)},
		{"Protractor", protractorText(s.Protractor)},
		{"Gauge", gaugeText(s.Gauge)},
	}
	if file := p.Job.File; file != "" {
		facts = append(facts, fact{"Job file", undirected(filepath.Base(file))})
	}
	for i, r := range p.Results {
		if len(r.Readings) > 0 {
			facts = append(facts, fact{fmt.Sprintf("Readings, cylinder %d", r.Number), readingsText(r)})
		}
		if i < len(p.Job.Cylinders) {
			if pairs := pairsText(p.Job.Cylinders[i]); pairs != "" {
				facts = append(facts, fact{fmt.Sprintf("Beside depths, cylinder %d", r.Number), pairs})
			}
		}
	}
	for _, m := range p.Marks {
		facts = append(facts, fact{"Nominal: " + m.Name, nominalText(m)})
	}
	return append(facts, fact{"Program", p.Version})
}

// mm writes a stated length.
func mm(l geometry.Length) string { return words.Plain(l.Millimetres()) + " mm" }

func engineText(e evidence.Engine) string {
	var parts []string
	for _, d := range []struct {
		name string
		is   geometry.Length
	}{{"bore", e.Bore}, {"stroke", e.Stroke}, {"rod", e.Rod}} {
		if d.is > 0 {
			parts = append(parts, d.name+" "+mm(d.is))
		} else {
			parts = append(parts, d.name+" unknown")
		}
	}
	if e.OffsetStated {
		parts = append(parts, "pin offset "+mm(e.PinOffset), "bore offset "+mm(e.BoreOffset))
	} else {
		parts = append(parts, "offset not stated, taken as 0")
	}
	return fmt.Sprintf("%s. Known to: stroke ± %s, rod ± %s, offset ± %s.", strings.Join(parts, ", "),
		mm(e.KnownTo.Stroke), mm(e.KnownTo.Rod), mm(e.KnownTo.Offset))
}

func protractorText(p evidence.Protractor) string {
	counts := "with"
	if p.Sense == evidence.Against {
		counts = "against"
	}
	return fmt.Sprintf("Counts %s the running direction, wraps at %d; read to %s deg, its own error up to %s deg, "+
		"off centre by up to %s at a radius of %s.", counts, p.Scale, words.Plain(p.Step.Degrees()), words.Plain(p.Error.Degrees()), mm(p.OffCentre), mm(p.Radius))
}

func gaugeText(g evidence.Gauge) string {
	return fmt.Sprintf("%s, numbers grow as the piston goes %s; read to %s, its own error up to %s, scale known to ± %s %%; "+
		"lash expected %s ± %s.", g.Kind, g.Counts, mm(g.Step), mm(g.Error), words.Plain(100*g.ScaleKnownTo), mm(g.Lash), mm(g.LashKnownTo))
}

func readingsText(r tdc.Result) string {
	var files, turns []string
	for _, j := range r.Readings {
		if file := undirected(filepath.Base(j.File)); !slices.Contains(files, file) {
			files = append(files, file)
		}
	}
	for _, turn := range turnsOf(r) {
		turns = append(turns, turn.String())
	}
	return fmt.Sprintf("%s, turned %s; %s", words.Count(len(r.Readings), "reading"), strings.Join(turns, " and "), strings.Join(files, ", "))
}

// pairsText is what a cylinder was read by without a depth; empty without.
func pairsText(c evidence.Cylinder) string {
	var parts []string
	for _, kind := range []struct {
		n    int
		name string
	}{{len(c.Stops), "pair of contacts with a stop"}, {len(c.Dwell), "dwell seen"}, {len(c.Views), "pair of equal views"}} {
		if kind.n > 0 {
			parts = append(parts, fmt.Sprintf("%d × %s", kind.n, kind.name))
		}
	}
	return strings.Join(parts, ", ")
}

func nominalText(m mark.Judged) string {
	source := m.Source
	if source == "" {
		source = "source not stated"
	}
	text := words.Plain(m.ShouldBe.Degrees()) + " deg after TDC"
	if m.Zero == mark.Throw {
		text = words.Plain(m.ShouldBe.Degrees()) + " deg after throw-along-bore"
	}
	if m.HasLimit {
		text += ", ± " + words.Plain(m.Limit.Degrees())
	}
	return text + "; " + source
}
