package rehearse

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	library "github.com/pelletier/go-toml/v2"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/toml"
)

// Practice is a practice job and where it is kept.
type Practice struct {
	Folder, AnswerFile string
	Job                practice.Job
	OfClass            int // its number in a class; 0: it is a job alone
}

// What the files of a practice job begin with: by it they are known for no real job.
const (
	jobFile        = "# A practice job: engine and readings are invented.\n"
	readingsFile   = "# Practice readings, invented\n"
	PracticeAnswer = "# The answer to a practice job. Everything in it is invented.\n"
	ClassPage      = `<meta name="generator" content="rehearse --class,`
)

// Answer is the answer as a file. An error is of an answer that TOML has no way to write.
func (p Practice) Answer() ([]byte, error) {
	answer, err := library.Marshal(p.Job.Answer)
	return append([]byte(PracticeAnswer), answer...), err
}

// title is the job's, which tells the engines of a class apart.
func (p Practice) title() string {
	if p.OfClass == 0 {
		return "Practice: find true TDC"
	}
	return fmt.Sprintf("Practice, engine %d: find true TDC", p.OfClass)
}

// jobFile is the job as the learner gets it: it tells none of what was switched on.
func (p Practice) jobFile() []byte {
	w := toml.Writer{Column: 25}
	w.Say("%s", strings.TrimPrefix(jobFile, "# "))
	w.Key("title", toml.Quote(p.title()), "")
	w.Key("unit", toml.Quote("mm"), "")
	w.Table("engine")
	w.Key("stroke", toml.Number(p.Job.Answer.Stroke), "")
	w.Key("rod", toml.Number(p.Job.Answer.Rod), "")
	writeInstruments(&w)
	w.Next("cylinder")
	w.Key("number", "1", "")
	w.Key("readings", toml.Quote("cylinder-1.csv"), "")
	if len(p.Job.Pin) > 0 {
		p.writePin(&w)
	}
	for _, l := range p.Job.Lobes {
		writeLobe(&w, l)
	}
	return w.Bytes()
}

func writeInstruments(w *toml.Writer) {
	w.Table("protractor")
	w.Key("counts", toml.Quote("with"), "its numbers grow in the running direction")
	w.Key("wraps", "360", "")
	w.Key("step", "0.5", "")
	w.Key("error", "0.25", "")
	w.Table("gauge")
	w.Key("kind", toml.Quote("dial"), "through the plug hole")
	w.Key("counts", toml.Quote("down"), "")
	w.Key("step", "0.01", "")
	w.Key("error", "0.02", "")
	w.Key("scale_known_to", "0.07", "")
	w.Key("lash", "0.06", "")
	w.Key("lash_known_to", "0.06", "")
}

func (p Practice) writePin(w *toml.Writer) {
	var read []toml.Literal
	for _, angle := range p.Job.Pin {
		read = append(read, toml.Literal(words.Fixed(angle, 1)))
	}
	w.Next("mark")
	w.Key("name", toml.Quote("locking pin"), "")
	w.Key("on", toml.Quote("flywheel"), "")
	w.Key("read", toml.List(read...), "")
	w.Key("should_be", "0.0", "")
	w.Key("limit", toml.Literal(words.Fixed(practice.PinLimit, 1)), "")
	w.Key("source", toml.Quote("invented"), "")
}

// readingsFile is the readings, the first on the line that practice counts them from.
func (p Practice) readingsFile() []byte {
	out := bytes.NewBufferString(readingsFile + "angle,depth,turn\n")
	for _, r := range p.Job.Readings {
		fmt.Fprintf(out, "%s,%s,%s\n", words.Fixed(r.Angle, 1), words.Fixed(r.Depth, 2), r.Turn)
	}
	return out.Bytes()
}

// Text says what was written and what to do with it. An error is form.Terminal's.
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
	p.ofLobes(&d, check)
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

// Document is the answer in words.
func (r Rehearsal) Document() doc.Document {
	var d doc.Document
	way := "after"
	if r.Off < 0 {
		way = "before"
	}
	d.Say(fmt.Sprintf("%s: %s deg is %s deg %s true TDC, which is at %s on the protractor. Up to %s deg counts as right: these "+
		"readings tell no better.", words.Capital(r.verdict()), words.Plain(r.Given), words.Fixed(math.Abs(r.Off), 2), way, words.Fixed(r.TDC, 2), words.Plain(r.Limit)))
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

type rehearsalJSON struct {
	form.Head
	Verdict string     `json:"verdict" enum:"within|outside"`
	Given   float64    `json:"given_deg"`
	TDC     float64    `json:"tdc_deg" doc:"the truth"`
	Off     float64    `json:"off_deg" doc:"late positive"`
	Limit   float64    `json:"limit_deg" doc:"an answer this near is right"`
	Near    *string    `json:"near" doc:"the trap that the answer seems to have come from; null: none"`
	Traps   []trapJSON `json:"traps"`
}

type trapJSON struct {
	Name string   `json:"name"`
	TDC  *float64 `json:"tdc_deg" doc:"where it leads; null: to no one angle"`
	Why  string   `json:"why"`
}

// JSON is the answer as JSON.
func (r Rehearsal) JSON() ([]byte, error) {
	out := rehearsalJSON{form.Format1, r.verdict(), r.Given, r.TDC, r.Off, r.Limit, nil, []trapJSON{}}
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
