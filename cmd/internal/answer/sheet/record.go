package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
)

// banner is whose sheet it is, what it is about, and when it was measured.
func (s Sheet) banner() doc.Banner {
	b := doc.Banner{From: cmp.Or(cut(s.Job.Sheet.Shop), "Timing check"), About: s.subject(), When: s.date()}
	if s.Job.Sheet.Shop != "" {
		b.About = "Timing check: " + b.About
	}
	if s.repair() {
		b.About = strings.Replace(b.About, "Timing check:", "Timing measured again:", 1)
	}
	return b
}

// subject is the vehicle or the engine that was measured.
func (s Sheet) subject() string {
	return cut(cmp.Or(s.Job.Sheet.Vehicle, s.Job.Title, s.Job.Setup.Engine.Name, "an engine"))
}

// date is when it was measured, as somebody wrote it.
func (s Sheet) date() string { return cmp.Or(s.Job.Sheet.Date, s.Job.Date) }

// record is who measured what, with which instruments, and how sure it is. What nobody
// said is left to be written by hand.
func (s Sheet) record() doc.Facts {
	sheet := s.Job.Sheet
	facts := doc.Facts{{What: "Engine", Is: listed(s.subjectEngine(), cut(sheet.Odometer))}}
	if sheet.Customer != "" || sheet.Order != "" {
		facts = append(facts, doc.Fact{What: "Customer", Is: listed(cut(sheet.Customer), order(cut(sheet.Order)))})
	}
	return append(facts,
		doc.Fact{What: "Measured by", Is: cut(sheet.By)},
		doc.Fact{What: "Date", Is: s.dates()},
		doc.Fact{What: "Instruments", Is: s.instruments()},
		doc.Fact{What: "How sure", Is: s.sure()},
	)
}

// subjectEngine is the engine's name beside the vehicle's, where they differ.
func (s Sheet) subjectEngine() string {
	return cmp.Or(cut(s.Job.Setup.Engine.Name), s.subject())
}

// dates is when it was measured; before and after of a repair.
func (s Sheet) dates() string {
	if !s.repair() {
		return s.date()
	}
	before := cmp.Or(s.Again.Before.Job.Sheet.Date, s.Again.Before.Job.Date)
	if before == "" {
		return s.date()
	}
	return listed(before+" (before)", s.date()+" (now)")
}

// instruments is what was measured with, and their numbers.
func (s Sheet) instruments() string {
	p, g, b := s.Job.Setup.Protractor, s.Job.Setup.Gauge, s.Bench()
	protractor := "protractor read to " + words.Plain(p.Step.Degrees()) + degreeSign
	for _, c := range s.Job.Cylinders {
		if len(c.Readings) > 0 {
			return listed(numbered(kinds[g.Kind]+" read to "+b.Stated(g.Step), cut(g.Number)), numbered(protractor, cut(p.Number)))
		}
	}
	return numbered(protractor, cut(p.Number))
}

// kinds are the gauges by the names that people know.
var kinds = map[evidence.GaugeKind]string{evidence.Dial: "dial gauge", evidence.DepthRod: "depth rod", evidence.Borescope: "borescope"}

// sure is what stands behind each ±.
func (s Sheet) sure() string {
	r := s.Results[0]
	by := words.Count(len(r.Readings), "reading") + " of the piston"
	if len(r.Readings) == 0 {
		by = "where the piston stands still or comes to the same height"
	}
	return fmt.Sprintf("Top dead centre by %s. Each ± holds 19 times in 20.", by)
}

// listed is those of the texts that say something, in a row.
func listed(texts ...string) string {
	var some []string
	for _, text := range texts {
		if text != "" {
			some = append(some, text)
		}
	}
	return strings.Join(some, ", ")
}

// numbered is a thing with its number.
func numbered(what, number string) string {
	if number == "" {
		return what
	}
	return what + " no. " + number
}

// order is the workshop's order, where it has a number.
func order(number string) string {
	if number == "" {
		return ""
	}
	return numbered("order", number)
}

// cut is what somebody wrote, of a length that leaves the others room; "" of nothing.
func cut(text string) string {
	const most = 60 // letters: a workshop's name, or a car's with its engine
	if text == "" {
		return ""
	}
	return legible.Isolated(words.Cut(legible.Undirected(text), most))
}
