package find

import (
	"bytes"
	_ "embed"
	"html/template"
	"slices"
	"strings"
	"unicode"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/legible"
	"evendrop/tdc/mark"
)

// Page is the answer of the main job for a browser and for paper.
type Page struct {
	Answer
	Version string // of the program
}

//go:embed page.html
var pageHTML string

//go:embed page.css
var pageCSS string

var pageTemplate = template.Must(template.New("page").Parse(pageHTML))

// view is what the page's template is filled with.
type view struct {
	Title, Engine, Finding, Version string
	CSS                             template.CSS
	Warnings                        []string
	Marks                           *marksView
	Measured                        *measuredView
	Drive                           *driveView
	Throws                          *throwsView
	Cylinders                       []cylinderView
	Used, Cautions                  []fact
}

// fact is a thing and what is said of it.
type fact struct{ What, Is string }

type figure struct {
	Picture template.HTML
	Caption string
}

// HTML is the page: one file that asks for nothing and needs no script.
func (p Page) HTML() ([]byte, error) {
	p = p.isolated()
	v := view{
		Title: p.Job.Title, Engine: p.Job.Setup.Engine.Name, Finding: p.sentence(),
		Version: p.Version, CSS: template.CSS(pageCSS + chart.Style()), Used: p.used(),
	}
	if v.Title == "" {
		v.Title = "Where the piston is highest"
	}
	for _, r := range p.Results {
		v.Warnings = append(v.Warnings, mapped(p.Warnings(r), undirected)...)
	}
	for _, c := range caution.List {
		v.Cautions = append(v.Cautions, fact{c.Hazard, c.Advice})
	}
	var err error
	for i := range p.Results {
		c, err := p.cylinderView(i)
		if err != nil {
			return nil, err
		}
		v.Cylinders = append(v.Cylinders, c)
	}
	if len(p.Marks) > 0 {
		if v.Marks, err = p.marksView(); err != nil {
			return nil, err
		}
		if v.Drive, err = p.driveView(); err != nil {
			return nil, err
		}
	}
	v.Measured, v.Throws = p.measuredView(), p.throwsView()
	var out bytes.Buffer
	err = pageTemplate.Execute(&out, v)
	return out.Bytes(), err
}

// figure is a picture with its caption; the page has the style sheet.
func (p Page) figure(name string, n int, caption string) (*figure, error) {
	svg, err := p.Picture(name, n)
	if err != nil {
		return nil, err
	}
	// The picture escapes every word that it is given.
	return &figure{template.HTML(chart.Unstyled(svg)), caption}, nil
}

// isolated is p with every name from outside between marks that keep its
// direction of writing to itself.
func (p Page) isolated() Page {
	p.Job.Title = undirected(p.Job.Title)
	p.Job.Setup.Engine.Name = undirected(p.Job.Setup.Engine.Name)
	p.Marks, p.Measured = isolatedMarks(p.Marks), isolatedMarks(p.Measured)
	p.Diagnosis.Unmeasured = mapped(p.Diagnosis.Unmeasured, isolated)
	p.Diagnosis.Explanations = slices.Clone(p.Diagnosis.Explanations)
	for i, e := range p.Diagnosis.Explanations {
		e.Slips = slices.Clone(e.Slips)
		for k, s := range e.Slips {
			s.Joints, s.Opposite = mapped(s.Joints, isolated), mapped(s.Opposite, isolated)
			e.Slips[k] = s
		}
		p.Diagnosis.Explanations[i] = e
	}
	return p
}

func isolatedMarks(marks []mark.Judged) (out []mark.Judged) {
	for _, m := range marks {
		m.Name, m.Source = isolated(m.Name), isolated(m.Source)
		out = append(out, m)
	}
	return out
}

func mapped(list []string, by func(string) string) (out []string) {
	for _, text := range list {
		out = append(out, by(text))
	}
	return out
}

// isolated is a name between a first-strong isolate and its end.
func isolated(name string) string {
	if name == "" {
		return ""
	}
	return "\u2068" + undirected(name) + "\u2069"
}

// undirected is text without what turns the direction of the writing round.
func undirected(text string) string {
	return legible.Line(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, text))
}
