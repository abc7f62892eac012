package rehearse

import (
	"bytes"
	"fmt"
	"path/filepath"

	"github.com/pelletier/go-toml/v2"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
)

// Practice is a practice job and where it is kept.
type Practice struct {
	Folder, AnswerFile string
	Job                practice.Job
}

// What the files of a practice job begin with: by it they are known for no real job.
const (
	PracticeJob      = "# A practice job: engine and readings are invented.\n"
	PracticeReadings = "# Practice readings, invented\n"
	PracticeAnswer   = "# The answer to a practice job. Everything in it is invented.\n"
)

// Answer is the answer as a file.
func (p Practice) Answer() ([]byte, error) {
	answer, err := toml.Marshal(p.Job.Answer)
	return append([]byte(PracticeAnswer), answer...), err
}

// JobFile is the job as the learner gets it: it tells none of what was switched on.
func (p Practice) JobFile() []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, PracticeJob+`title = "Practice: find true TDC"
unit  = "mm"

[engine]
stroke = %s
rod = %s

[protractor]
counts = "with"          # its numbers grow in the running direction
wraps = 360
step = 0.5
error = 0.25

[gauge]
kind = "dial"            # through the plug hole
counts = "down"
step = 0.01
error = 0.02
scale_known_to = 0.07
lash = 0.06
lash_known_to = 0.06

[[cylinder]]
number = 1
readings = "cylinder-1.csv"
`, words.Plain(p.Job.Answer.Stroke), words.Plain(p.Job.Answer.Rod))
	if len(p.Job.Pin) > 0 {
		out.WriteString(`
[[mark]]
name = "locking pin"
on = "flywheel"
read = [`)
		for i, angle := range p.Job.Pin {
			if i > 0 {
				out.WriteString(", ")
			}
			out.WriteString(words.Fixed(angle, 1))
		}
		out.WriteString(`]
should_be = 0.0
limit = 1.0
source = "invented"
`)
	}
	return out.Bytes()
}

// ReadingsFile is the readings, the first on practice.FirstLine.
func (p Practice) ReadingsFile() []byte {
	out := bytes.NewBufferString(PracticeReadings + "angle,depth,turn\n")
	for _, r := range p.Job.Readings {
		fmt.Fprintf(out, "%s,%s,%s\n", words.Fixed(r.Angle, 1), words.Fixed(r.Depth, 2), r.Turn)
	}
	return out.Bytes()
}

// Text says what was written and what to do with it.
func (p Practice) Text(width int) ([]byte, error) {
	var d doc.Document
	job := filepath.Join(p.Folder, "job.toml")
	check := "evendrop rehearse --check " + words.ShellWord(p.Folder)
	if p.AnswerFile != filepath.Join(p.Folder, "answer.toml") {
		check += " --answer " + words.ShellWord(p.AnswerFile)
	}
	d.Say(fmt.Sprintf("%s and its %s are ready; the answer is in %s.", job, words.Count(len(p.Job.Readings), "reading"), p.AnswerFile))
	d.Say("Find TDC from the readings by hand, or with: evendrop find " + words.ShellWord(job))
	d.Say("Have the answer marked with: " + check + " --tdc DEG")
	return form.Terminal(d, width)
}

// Rehearsal is a learner's answer, marked.
type Rehearsal struct{ practice.Marked }

func (r Rehearsal) verdict() string {
	if r.Within() {
		return "within"
	}
	return "outside"
}

func (r Rehearsal) document() doc.Document {
	var d doc.Document
	way := "late"
	if r.Off < 0 {
		way = "early"
	}
	off := r.Off
	if off < 0 {
		off = -off
	}
	d.Say(fmt.Sprintf("%s: %s deg is %s deg %s of true TDC, which is at %s on the protractor. Up to %s deg counts as right: these "+
		"readings tell no better.", words.Capital(r.verdict()), words.Plain(r.Given), words.Fixed(off, 2), way, words.Fixed(r.TDC, 2), words.Plain(r.Limit)))
	if r.Near != nil {
		d.Say(fmt.Sprintf("It lies near %s deg, where this trap leads: %s. %s", words.Fixed(*r.Near.TDC, 2), r.Near.Name, r.Near.Why))
	}
	t := doc.Table{Header: []string{"The traps in these readings", "leads to, deg"}}
	var why []string
	for _, trap := range r.Traps {
		leads := ""
		if trap.TDC != nil {
			leads = words.Fixed(*trap.TDC, 2)
		}
		t.Rows = append(t.Rows, []string{trap.Name, leads})
		if r.Near == nil || r.Near.Name != trap.Name {
			why = append(why, fmt.Sprintf("%s: %s", words.Capital(trap.Name), trap.Why))
		}
	}
	d.Table(t)
	d.List(why)
	d.Say("Everything here is invented. " + caution.Line)
	return d
}

// Text is the answer in lines of up to width characters.
func (r Rehearsal) Text(width int) ([]byte, error) { return form.Terminal(r.document(), width) }

// Markdown is the answer as Markdown.
func (r Rehearsal) Markdown() ([]byte, error) { return form.Markdown(r.document()) }

type rehearsalJSON struct {
	Program string     `json:"program"`
	Format  int        `json:"format"`
	Verdict string     `json:"verdict"`
	Given   float64    `json:"given_deg"`
	TDC     float64    `json:"tdc_deg"`
	Off     float64    `json:"off_deg"`
	Limit   float64    `json:"limit_deg"`
	Near    *string    `json:"near"` // null: no trap
	Traps   []trapJSON `json:"traps"`
}

type trapJSON struct {
	Name string   `json:"name"`
	TDC  *float64 `json:"tdc_deg"` // null: it does not lead to one angle
	Why  string   `json:"why"`
}

// JSON is the answer as JSON.
func (r Rehearsal) JSON() ([]byte, error) {
	out := rehearsalJSON{"evendrop", form.Format, r.verdict(), r.Given, r.TDC, r.Off, r.Limit, nil, []trapJSON{}}
	if r.Near != nil {
		out.Near = &r.Near.Name
	}
	for _, t := range r.Traps {
		out.Traps = append(out.Traps, trapJSON(t))
	}
	return form.JSON(out)
}

// CSV is the answer as a row.
func (r Rehearsal) CSV() ([]byte, error) {
	near := ""
	if r.Near != nil {
		near = r.Near.Name
	}
	return form.CSV([][]string{
		{"verdict", "given_deg", "tdc_deg", "off_deg", "limit_deg", "near"},
		{r.verdict(), form.Digits(r.Given), form.Digits(r.TDC), form.Digits(r.Off), form.Digits(r.Limit), near},
	})
}
