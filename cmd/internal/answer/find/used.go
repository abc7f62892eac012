package find

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// used is what the answer rests on: engine, instruments, files, and where the
// nominal angles came from.
func (f Answer) used() doc.Facts {
	s, b := f.Job.Setup, f.Bench()
	facts := doc.Facts{
		{What: "Engine", Is: engineText(b, s.Engine)},
		{What: "Protractor", Is: protractorText(b)},
		{What: "Gauge", Is: gaugeText(b)},
	}
	add := func(what, is string) {
		if is != "" {
			facts = append(facts, doc.Fact{What: what, Is: is})
		}
	}
	if f.Job.File != "" {
		add("Job file", legible.Undirected(filepath.Base(f.Job.File)))
	}
	for i, r := range f.Results {
		for _, s := range r.Sets() {
			if len(s.Readings) > 0 {
				add(fmt.Sprintf("Readings, cylinder %d", r.Number), found.InSet(r, s, readingsText(s)))
			}
		}
		if i < len(f.Job.Cylinders) {
			add(fmt.Sprintf("Other evidence, cylinder %d", r.Number), pairsText(f.Job.Cylinders[i]))
		}
	}
	for _, m := range f.Marks {
		if m.Lobe == nil {
			add("Given: "+m.Name, nominalText(m))
		}
	}
	for _, m := range f.Lobes {
		add("Lobe: "+f.LobeName(m), f.lobeText(m))
	}
	return facts
}

func engineText(b words.Bench, e evidence.Engine) string {
	var parts []string
	for _, d := range []struct {
		name string
		is   geometry.Length
	}{{"bore", e.Bore}, {"stroke", e.Stroke}, {"rod", e.Rod}} {
		if d.is > 0 {
			parts = append(parts, d.name+" "+b.Stated(d.is))
		} else {
			parts = append(parts, d.name+" unknown")
		}
	}
	if e.OffsetStated {
		parts = append(parts, "pin offset "+b.Stated(e.PinOffset), "bore offset "+b.Stated(e.BoreOffset))
	} else {
		parts = append(parts, "offset not stated, taken as 0")
	}
	return fmt.Sprintf("%s. Known to: stroke ± %s, rod ± %s, offset ± %s.", strings.Join(parts, ", "),
		b.Stated(e.KnownTo.Stroke), b.Stated(e.KnownTo.Rod), b.Stated(e.KnownTo.Offset))
}

func protractorText(b words.Bench) string {
	p := b.Protractor
	counts := "with"
	if p.Sense == evidence.Against {
		counts = "against"
	}
	return fmt.Sprintf("counts %s the running direction, wraps at %d; read to %s deg, its own error up to %s deg, "+
		"off centre by up to %s at a radius of %s.", counts, p.Scale, words.Plain(p.Step.Degrees()), words.Plain(p.Error.Degrees()), b.Stated(p.OffCentre), b.Stated(p.Radius))
}

func gaugeText(b words.Bench) string {
	g := b.Gauge
	return fmt.Sprintf("%s, numbers grow as the piston goes %s; read to %s, its own error up to %s, scale known to ± %s %%; "+
		"bearing clearance (lash) expected %s ± %s.", g.Kind, g.Counts, b.Stated(g.Step), b.Stated(g.Error), words.Plain(100*g.ScaleKnownTo), b.Stated(g.Lash), b.Stated(g.LashKnownTo))
}

func readingsText(r tdc.Result) string {
	var files []string
	for _, j := range r.Readings {
		if file := legible.Undirected(filepath.Base(j.File)); !slices.Contains(files, file) {
			files = append(files, file)
		}
	}
	return fmt.Sprintf("%s, turned %s; %s", words.Count(len(r.Readings), "reading"), strings.Join(turnsIn(r), " and "), strings.Join(files, ", "))
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
	if m.Off != nil {
		text = fmt.Sprintf("measured %s %s off; %s", words.Plain(m.Off.Value), m.Off.Unit, text)
	}
	if m.HasLimit {
		text += ", ± " + words.Plain(m.Limit.Degrees())
	}
	return text + "; " + source + setsText(m)
}

// setsText is the sets that a mark was read in, where there are several.
func setsText(m mark.Judged) string {
	if len(m.Sets) < 2 {
		return ""
	}
	var sets []string
	for _, s := range m.Sets {
		sets = append(sets, strconv.Itoa(s.Set))
	}
	return "; read in sets " + words.And(sets)
}

// turnsIn is the directions that the readings were taken in, forward first.
func turnsIn(r tdc.Result) (turns []string) {
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		if slices.ContainsFunc(r.Readings, func(j adjust.Judged) bool { return j.Turn == turn }) {
			turns = append(turns, turn.String())
		}
	}
	return turns
}
