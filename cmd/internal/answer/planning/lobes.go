package planning

import (
	"fmt"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/lobe"
	"evendrop/tdc/plan"
	"evendrop/tdc/plan/lobes"
)

// lobePlan is where to read one of the job's cam lobes.
type lobePlan struct {
	lobes.Plan
	TDC *geometry.Angle // of its cylinder on the protractor, where the piston was read; nil where not
}

// lobesOf is the plans of a job's lobes, the piston read as planned.
func lobesOf(j job.Job, piston plan.Plan) (list []lobePlan, err error) {
	if len(j.Lobes) == 0 {
		return nil, nil
	}
	result := readSoFar(j)
	for _, l := range j.Lobes {
		of, from := lobePlan{}, from(j, result, l)
		if from != nil {
			of.TDC = new(from.TDC.Angle + from.Throw)
		}
		if of.Plan, err = lobes.Of(j.Setup, piston, l, from); err != nil {
			return nil, fmt.Errorf("lobe %q: %w", l.Name, err)
		}
		list = append(list, of)
	}
	return list, nil
}

// readSoFar is what was read of cylinder 1's piston; nil where that tells nothing.
func readSoFar(j job.Job) *tdc.Result {
	for _, c := range j.Cylinders {
		if c.Number == 1 {
			j.Setup.Protractor = j.Setup.Protractor.WrittenAs(c.Readings)
			if result, err := tdc.Find(j.Setup, c); err == nil {
				return &result
			}
		}
	}
	return nil
}

// from is the TDC that a lobe counts from; nil where nothing read so far tells it.
func from(j job.Job, result *tdc.Result, l lobe.Lobe) *lobe.From {
	if result == nil {
		return nil
	}
	of, read := result.OfSet(l.Set)
	if !read || of.CannotTell != nil {
		return nil
	}
	from := lobe.From{Result: of}
	for _, c := range j.Cylinders {
		if c.Number == l.Cylinder {
			from.Throw = c.Throw
		}
	}
	return &from
}

// bench is how the job shows angles and lengths.
func (p Plan) bench() words.Bench { return words.NewBench(p.job.Setup, p.job.Unit) }

// lobes adds where to read the lobes.
func (p Plan) sayLobes(d *doc.Document) {
	for _, l := range p.lobes {
		d.Section("Lobe: " + l.Name)
		bench := p.bench()
		if len(l.Points) > 0 {
			d.Say(l.sentence(bench))
			d.Table(l.table(bench))
			d.Table(l.reachTable())
		}
		for _, text := range bench.Findings(l.Findings) {
			d.Say(text)
		}
		if len(l.Readings) > 0 {
			d.Say(l.soFar())
			d.List(bench.Findings(l.Lacking))
		}
	}
	if len(p.lobes) > 0 {
		d.Section("How to read a lobe")
		d.List(howToReadLobes())
	}
}

// sentence is how many lifts to read, and how sure they make it.
func (l lobePlan) sentence(bench words.Bench) string {
	text := fmt.Sprintf("%s, all turning forward, will tell its centre to about ± %s deg (95 %%)", words.Count(len(l.Points), "lift"), hundredths(l.Reach.Centre.Known))
	if s := l.Reach.Shift; s != nil {
		text = fmt.Sprintf("%s, all turning forward, will tell how late its cam is to about ± %s deg (95 %%)", words.Count(len(l.Points), "lift"), hundredths(s.Known))
	}
	if l.Reach.Missing > 0 {
		text += fmt.Sprintf(", and lift that is missing, by lash or wear, to ± %s", bench.Depth(l.Reach.Missing))
	}
	text += fmt.Sprintf(". The %d marked event and top are enough for that. Those marked shape show flanks that are unlike; with them this lobe can be compared all over with another engine's.", l.Needed())
	if l.TDC == nil && l.placed() {
		text += " What the protractor will show there is known once the piston has been read: read it first, and plan again."
	}
	return text
}

// soFar is what of the plan the lobe's readings have; "" without one.
func (l lobePlan) soFar() string {
	left := l.Left()
	switch {
	case len(l.Points) == 0:
		return ""
	case len(left) == 0:
		return fmt.Sprintf("Its %s so far cover all of these.", words.Count(len(l.Readings), "reading"))
	}
	var numbers []string
	for _, n := range left {
		numbers = append(numbers, strconv.Itoa(n))
	}
	return fmt.Sprintf("After its %s so far these are left to be read: Nos. %s.", words.Count(len(l.Readings), "reading"), words.And(numbers))
}

// howToReadLobes is what to do with the tables.
func howToReadLobes() []string {
	return []string{
		"Set the gauge to zero on the heel, some 60 deg of crank before the first lift, clear of both ramps. Look again as far after the last lift: it has to show zero there too. These two are not written down.",
		"Turn forward only, down the table in its order: stop at about that lift, and write down what gauge and protractor really show. Hitting the lift exactly does not matter.",
		"Overshot? Where the maker allows turning back, go back well beyond it, by 60 to 90 deg, and come up to it again. Then the slack of the drive lies on the same side. Otherwise go on forward two turns.",
		"Read the top once, where the gauge stands still: only how high it is counts, and its angle says little.",
		"At one place a protractor is wrong by the same amount each time. The same lift read again shows a slip of the hand, but does not make it surer.",
	}
}
