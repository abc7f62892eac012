package find

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

type tableView struct {
	Label  string
	Header []string
	Rows   []rowView
}

type rowView struct {
	Cells    []string
	Doubtful bool
}

// view is a table of the text for the page.
func viewOf(t doc.Table, label string) tableView {
	v := tableView{Label: label, Header: t.Header}
	for _, row := range t.Rows {
		v.Rows = append(v.Rows, rowView{Cells: row})
	}
	return v
}

type cylinderView struct {
	Heading, Greatest, Trials, GoBack string
	OfMethods                         []string
	Figures                           []*figure
	Methods, Budget                   tableView
	Readings                          *tableView // nil without
}

// throwsView is the cylinders against one another.
type throwsView struct {
	Table tableView
	Says  []string
}

func (p Page) throwsView() *throwsView {
	if len(p.Throws) == 0 {
		return nil
	}
	return &throwsView{viewOf(p.throwTable(), "The cylinders against one another"), p.ofThrows()}
}

// cylinderView is the n-th cylinder's pictures and tables.
func (p Page) cylinderView(n int) (cylinderView, error) {
	r := p.Results[n]
	c := cylinderView{
		Heading: "Where the piston turns round", OfMethods: ofMethods(r), Greatest: Greatest(r), GoBack: p.goBack(r),
		Methods: viewOf(p.methodTable(r), "TDC by each method"), Budget: viewOf(BudgetTable(r), "What the uncertainty is made of"),
		Readings: p.readingsView(r),
	}
	if len(p.Results) > 1 {
		c.Heading = fmt.Sprintf("Cylinder %d: where the piston turns round", r.Number)
	}
	if n < len(p.Trials) {
		c.Trials = p.trials(p.Trials[n])
	}
	for _, f := range []struct{ name, caption string }{
		{CurvePicture, "A point is a reading; its bars are two standard uncertainties of the instruments, where they are wider than the " +
			"point. The line is the motion of crank and rod fitted to all of them."},
		{ResidualPicture, "Most bars should reach the line. An arch points to the gauge's scale, stroke or rod; a step at TDC to lash; " +
			"an S to an offset; one point alone to a bad reading."},
		{MidpointsPicture, "Half-way between two angles at which the piston is equally deep. Points that come nearer as the drop grows " +
			"point to lash, points that drift with it to an offset or a wheel off its centre."},
	} {
		if nothingIn(f.name, r) != nil {
			continue
		}
		drawn, err := p.figure(f.name, n, f.caption)
		if err != nil {
			return c, err
		}
		c.Figures = append(c.Figures, drawn)
	}
	return c, nil
}

// readingsView is the table of every reading; nil without one.
func (p Page) readingsView(r tdc.Result) *tableView {
	if len(r.Readings) == 0 {
		return nil
	}
	v := viewOf(p.readingTable(r), "Every reading")
	for i, j := range r.Readings {
		v.Rows[i].Doubtful = j.Suspect
	}
	return &v
}

type marksView struct {
	Rows   []markView
	Figure *figure
}

type markView struct {
	Name, Verdict, Class, Off string
	Facts                     []fact
	Notes                     []string
}

// classes are the shapes of the verdicts' frames.
var classes = map[mark.Verdict]string{
	mark.Within: "within", mark.Outside: "outside", mark.TooClose: "close", mark.NoLimitSaid: "unjudged",
}

func (p Page) marksView() (*marksView, error) {
	v := &marksView{}
	for _, m := range p.Marks {
		one := markView{Name: m.Name, Verdict: string(m.Verdict), Class: classes[m.Verdict], Off: offText(m), Notes: mapped(p.bench().Findings(m.Notes), undirected)}
		places := words.Decimals(m.Expanded.Degrees())
		if m.Off == nil {
			one.Facts = []fact{{"reads", words.Fixed(m.Position.Degrees(), places) + " deg after TDC"}}
		} else {
			one.Facts = []fact{{"measured", words.Plain(m.Off.Value) + " " + string(m.Off.Unit)}}
		}
		if located(m) {
			one.Facts = append(one.Facts, fact{"should be", words.Fixed(m.Nominal.Degrees(), places)})
		}
		if m.HasLimit {
			one.Facts = append(one.Facts, fact{"limit", "± " + words.Plain(m.Limit.Degrees()) + " deg"})
		}
		if m.Verdict == mark.TooClose {
			one.Facts = append(one.Facts, fact{"it could be called if known to", "± " + words.Fixed(m.Settles.Degrees(), max(1, places)) + " deg"})
		}
		v.Rows = append(v.Rows, one)
	}
	var err error
	v.Figure, err = p.figure(MarksPicture, 0, "")
	return v, err
}

// measuredView is the marks that are only measured.
type measuredView struct {
	Table tableView
	Why   string
}

func (p Page) measuredView() *measuredView {
	if len(p.Measured) == 0 {
		return nil
	}
	return &measuredView{viewOf(p.measuredTable(), "Marks only measured"), onlyMeasured}
}

type driveView struct {
	Sentence     string
	Explanations []explanationView
	Forgiven     string            // what is said of Unlikely
	Unlikely     []explanationView // what the marks' limits forgive
	Better       string            // what is said of More
	More         []explanationView // what takes more slips
	Looks        []string
	Unmeasured   string
	Figure       *figure
}

type explanationView struct {
	Text  string
	Notes []string
}

func (p Page) driveView() (*driveView, error) {
	d := p.Diagnosis
	likely, less, more := d.Ranked()
	v := &driveView{
		Explanations: p.explanationViews(likely), Forgiven: forgiven, Unlikely: p.explanationViews(less),
		Unmeasured: strings.Join(d.Unmeasured, ", "),
	}
	if v.Explanations == nil {
		v.Sentence = p.Headline()
	}
	if len(more) > 0 {
		v.Better, v.More = better(more), p.explanationViews(more)
	}
	for _, look := range d.TellApart {
		v.Looks = append(v.Looks, undirected(words.Look(look)))
	}
	var err error
	caption := "Thick dashed lines lead to what may have moved."
	if v.Explanations == nil {
		caption = ""
	}
	v.Figure, err = p.figure(DrivePicture, 0, caption)
	return v, err
}

func (p Page) explanationViews(list []joint.Explanation) (views []explanationView) {
	for _, e := range list {
		if len(e.Slips) == 0 {
			continue
		}
		one := explanationView{Text: words.Explanation(e)}
		if e.ByLimits() {
			one.Text += "; " + words.Fits(e)
		}
		for _, s := range e.Slips {
			for _, note := range mapped(p.bench().Findings(s.Notes), undirected) {
				if !slices.Contains(one.Notes, note) {
					one.Notes = append(one.Notes, note)
				}
			}
		}
		views = append(views, one)
	}
	return views
}
