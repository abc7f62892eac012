package marking

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/job"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
)

// Driving is how the cams are driven, and what sits where by that.
type Driving struct {
	Layout, Sprocket toml.Literal // as a job file has them; "" is not said
	Placed           []Placed     // of what another drive moves: once a name
}

// Placed is a mark or a lobe by what it sits on and is against; "" of nothing.
type Placed struct{ Table, Name, On, Against string }

// AgainstItself tells whether a mark would be measured against the part that it is on.
func (p Placed) AgainstItself() bool { return p.Table == "mark" && p.On == p.Against }

// Drive is a form that asks how the cams are driven, said before or not.
type Drive struct {
	*Form
	which map[string]string // cam of a mark that sat on the only one: inlet or exhaust
}

// Again begins a form with the words behind drive: a layout, the sprocket's teeth, both or none.
// An error says what to type instead.
func Again(line string, j job.Job) (Drive, error) {
	d := Drive{&Form{job: j}, map[string]string{}}
	now := j.Drive
	layout, teeth, err := d.said(line)
	if err != nil {
		return d, err
	}
	if !layout {
		d.steps = append(d.steps, step{question: askLayout, standard: func() string { return cmp.Or(now.Layout, d.usualLayout()) }, take: d.takeLayout})
	}
	if !teeth {
		d.steps = append(d.steps, step{question: askSprocket, standard: func() string { return sprocketOf(now) }, take: d.takeSprocket})
	}
	for _, name := range d.onOnlyCam() {
		d.steps = append(d.steps, step{
			question: func() string { return "There are two cams then. Which of them is " + name + " on: inlet or exhaust?" },
			standard: func() string { return "" },
			take:     func(answer string) error { return d.takeWhich(name, answer) },
			needed:   func() bool { return slices.Contains(d.drive().Members(), "inlet cam") },
		})
	}
	return d, nil
}

// sprocketOf is the teeth of a drive's sprocket on the crank, as they are typed.
func sprocketOf(d mark.Drive) string {
	if d.CrankSprocket == 0 {
		return notKnown
	}
	return strconv.Itoa(d.CrankSprocket)
}

// said takes what stands in the line: a layout, and teeth behind it.
func (d Drive) said(line string) (layout, teeth bool, err error) {
	fields := strings.Fields(line)
	if n := len(fields) - 1; n >= 0 && strings.Trim(fields[n], "0123456789") == "" {
		if err := d.takeSprocket(fields[n]); err != nil {
			return false, false, err
		}
		fields, teeth = fields[:n], true
	}
	if len(fields) == 0 {
		return false, teeth, nil
	}
	if err := d.takeLayout(strings.Join(fields, " ")); err != nil {
		return false, false, fmt.Errorf("how the cams are driven: %w", err)
	}
	return true, teeth, nil
}

// onOnlyCam is the marks that sit on the only cam, or are against a part of it, once a name.
func (d Drive) onOnlyCam() (list []string) {
	only := func(member string) bool {
		part, cam := camsPart(member)
		return part && cam == ""
	}
	for _, m := range d.job.Marks {
		if (only(m.On) || only(m.Against)) && !slices.Contains(list, m.Name) {
			list = append(list, m.Name)
		}
	}
	return list
}

func (d Drive) takeWhich(name, answer string) (err error) {
	d.which[name], err = names.Read(answer, []string{string(lobe.Inlet), string(lobe.Exhaust)})
	return bare(err)
}

// camsPart tells whether a member is a cam or what turns with it, and of which cam: inlet,
// exhaust, or "" of the only one.
func camsPart(member string) (is bool, cam string) {
	first, _, _ := strings.Cut(member, " ")
	if first == "cam" {
		return true, ""
	}
	return first == string(lobe.Inlet) || first == string(lobe.Exhaust), first
}

// drive is the job's as it is to be.
func (d Drive) drive() mark.Drive {
	to := d.job.Drive
	to.Layout = d.layout
	return to
}

// Driving is how the cams are driven now, and as it is to be.
func (d Drive) Driving() (now, then Driving) {
	if was := d.job.Drive; was.Layout != "" {
		now.Layout = toml.Quote(was.Layout)
	}
	if n := d.job.Drive.CrankSprocket; n > 0 {
		now.Sprocket = toml.Literal(strconv.Itoa(n))
	}
	then.Layout, then.Sprocket = toml.Quote(d.layout), d.sprocket
	for _, l := range d.job.Lobes {
		now.place(&then, Placed{"lobe", l.Name, l.On, ""}, string(l.Valve), d.drive())
	}
	for _, m := range d.job.Marks {
		now.place(&then, Placed{"mark", m.Name, m.On, m.Against}, d.which[m.Name], d.drive())
	}
	return now, then
}

// place takes down what sits elsewhere on another drive.
func (now *Driving) place(then *Driving, is Placed, cam string, to mark.Drive) {
	moved := is
	moved.On, moved.Against = onOther(is.On, cam, to), onOther(is.Against, cam, to)
	if moved != is && !slices.Contains(now.Placed, is) {
		now.Placed, then.Placed = append(now.Placed, is), append(then.Placed, moved)
	}
}

// onOther is a member as it is called on another drive: a cam's part is the only cam's there, or
// that of the cam which is said.
func onOther(member, cam string, to mark.Drive) string {
	is, _ := camsPart(member)
	members := to.Members()
	if !is || slices.Contains(members, member) {
		return member
	}
	part := member[strings.LastIndex(member, " ")+1:]
	for _, there := range []string{cam + " " + part, "cam " + part, part} {
		if slices.Contains(members, there) {
			return there
		}
	}
	return member
}
