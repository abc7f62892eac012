package class

import (
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// whole is the page with every engine's answer and what each protractor shows.
func (c Class) whole() []byte {
	var head, main doc.Document
	head.Title("Key, for the teacher alone")
	head.Say(fmt.Sprintf("Seed %d, %s. The sheets' half-way is what comes of protractors read without a slip. "+invented, c.seed, words.Count(len(c.engines), "engine")))
	answers := doc.Table{Caption: "Answers", Header: []string{"Engine", "true TDC, deg", "right within", "half-way, deg", "pin late, deg", "pin", "what lies in wait"}}
	shown := doc.Table{Caption: "Protractors", Header: []string{"Engine", "1", "2", "3", "4", "5", "6", "7", "8"}}
	for _, e := range c.engines {
		a := e.Job.Answer
		answers.Add(doc.Unjudged, twoDigits(e.Number), words.Fixed(a.TDC, 2), words.Plain(a.Limit), words.Fixed(e.halfWay().Degrees(), 2),
			words.Signed(*a.Pin, 1), pinTruth(a), e.traps())
		row := []string{twoDigits(e.Number)}
		for _, h := range e.Held {
			row = append(row, words.Fixed(h.Pointer, 2))
		}
		shown.Add(doc.Unjudged, row...)
	}
	main.Section("Answers")
	main.Table(answers)
	main.Section("What each protractor shows, degrees")
	main.Table(shown)
	return c.page("Key, for the teacher alone", head, main)
}

// halfWay is the mean of what lies half-way between each pair on an engine's sheet.
func (e engine) halfWay() geometry.Angle {
	about := geometry.Angle(e.Job.Answer.TDC) * geometry.Degree
	sum := geometry.Angle(0)
	for _, h := range e.Held {
		sum += (geometry.Angle(h.Pointer)*geometry.Degree - about).Signed()
	}
	return (about + sum/geometry.Angle(len(e.Held))).Positive()
}

// pinTruth is the verdict on a pin.
func pinTruth(a practice.Answer) string {
	if math.Abs(*a.Pin) <= practice.PinLimit {
		return within
	}
	return outside
}

// traps is what was switched on, in a few words.
func (e engine) traps() string {
	a := e.Job.Answer
	list := []string{"lash " + words.Plain(a.Lash) + " mm"}
	if !e.bothWays() {
		list = append(list, "turned one way")
	}
	for _, typo := range a.Typos {
		list = append(list, fmt.Sprintf("line %d of the readings mistyped", typo.Line))
	}
	if a.Tilt != 0 {
		list = append(list, "gauge leans "+words.Plain(a.Tilt)+" deg")
	}
	if a.Offset != 0 {
		list = append(list, "offset "+words.Plain(a.Offset)+" mm")
	}
	return strings.Join(list, "; ")
}
