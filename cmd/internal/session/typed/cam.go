package typed

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/lobe"
)

// Cam is the lobe that a line speaks of.
type Cam struct {
	Valve    lobe.Valve
	Cylinder int
	Own      string // its name in the job; "" where the job has none of it
}

// Name is what the job calls it, or would.
func (c Cam) Name() string {
	return cmp.Or(c.Own, fmt.Sprintf("%s lobe, cylinder %d", c.Valve, c.Cylinder))
}

// File is where its lifts of a set are kept.
func (c Cam) File(set int) string {
	if set > 1 {
		return fmt.Sprintf("%s-%d-set-%d.csv", c.Valve, c.Cylinder, set)
	}
	return fmt.Sprintf("%s-%d.csv", c.Valve, c.Cylinder)
}

// valves are what a valve may be called.
var valves = map[string]lobe.Valve{
	"inlet": lobe.Inlet, "intake": lobe.Inlet, "in": lobe.Inlet, "exhaust": lobe.Exhaust, "ex": lobe.Exhaust, "exh": lobe.Exhaust,
}

// OfCam takes the words that say which lobe is meant, a valve and a cylinder or the name of
// one of the job's, up to a colon or to the readings; it is the rest of the line too.
func OfCam(order, rest string, jobs []lobe.Lobe) (c Cam, more string, err error) {
	usage := fmt.Errorf("%s goes with inlet or exhaust and a cylinder's number: type for example %s", order, Examples[order])
	head, tail, colon := strings.Cut(rest, ":")
	for _, l := range jobs {
		if strings.EqualFold(strings.TrimSpace(head), l.Name) {
			return Cam{l.Valve, l.Cylinder, l.Name}, strings.TrimSpace(tail), nil
		}
	}
	fields := slices.DeleteFunc(strings.Fields(strings.ReplaceAll(head, ",", " ")), func(word string) bool {
		return slices.Contains([]string{"lobe", "valve", "cylinder"}, strings.ToLower(word))
	})
	if len(fields) == 0 {
		return c, "", usage
	}
	var known bool
	if c.Valve, known = valves[strings.ToLower(fields[0])]; !known {
		return c, "", usage
	}
	c.Cylinder, fields = 1, fields[1:]
	if len(fields) > 0 && (colon || order != "lift" || len(fields) != 2) {
		if n, err := strconv.Atoi(fields[0]); err == nil && n >= 1 && n < 100 {
			c.Cylinder, fields = n, fields[1:]
		}
	}
	if colon && len(fields) > 0 {
		return c, "", usage
	}
	if !colon { // decimal commas are none of the name's
		words := strings.Fields(rest)
		tail = strings.Join(words[len(words)-len(fields):], " ")
	}
	return c, strings.TrimSpace(tail), nil
}

// Examples are the orders that speak of a lobe, each with an example.
var Examples = map[string]string{
	"lift": "lift inlet 1: 62.5 1.04",
	"lobe": "lobe inlet 1, and then an angle and a lift a line",
	"card": "card inlet 1: 12 BTDC 48 ABDC at 1.0, or card inlet 1: 108 ATDC",
}

// Is tells whether a lobe of the job is meant.
func (c Cam) Is(l lobe.Lobe) bool {
	return l.Name == c.Own || c.Own == "" && l.Valve == c.Valve && l.Cylinder == c.Cylinder
}
