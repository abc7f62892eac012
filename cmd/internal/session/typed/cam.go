package typed

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
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
// one of the job's, up to a colon or to the readings; it is the rest of the line too. An error has an example.
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
		all := strings.Fields(rest)
		tail = strings.Join(all[len(all)-len(fields):], " ")
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

// Table is the lobe as a job file has it, read in a set after so many readings of cylinder 1.
// The checking lift is what it is measured at, until a card says another: 1 mm, or 0.050 in,
// are what most cards are at (common practice, no source).
func (c Cam) Table(j job.Job, set, after int, file string) []byte {
	var w toml.Writer
	w.Next("lobe")
	w.Key("name", toml.Quote(c.Name()), "")
	w.Key("on", toml.Quote(c.Member(j)), "")
	w.Key("valve", toml.Quote(string(c.Valve)), "")
	w.Key("cylinder", toml.Literal(strconv.Itoa(c.Cylinder)), "")
	if set > 1 {
		w.Key("set", toml.Literal(strconv.Itoa(set)), "")
	}
	w.Key("readings", toml.Quote(filepath.Base(file)), "")
	w.Key("after_reading", toml.Literal(strconv.Itoa(after)), "")
	lift := toml.Literal("1.0")
	if j.Unit == "in" {
		lift = "0.050"
	}
	if k := slices.IndexFunc(j.Lobes, c.Is); k >= 0 { // in another set: what it is was said
		lift = toml.Number(words.NewBench(j.Setup, j.Unit).In(j.Lobes[k].Card.Lift))
	}
	w.Key("lift", lift, "checking lift")
	return w.Bytes()
}

// Member is the cam that the lobe is on.
func (c Cam) Member(j job.Job) string {
	own := string(c.Valve) + " cam"
	if j.Drive.Layout != "" && !slices.Contains(j.Drive.Members(), own) ||
		slices.ContainsFunc(j.Marks, func(m mark.Mark) bool { return m.On == "cam" }) {
		return "cam"
	}
	return own
}
