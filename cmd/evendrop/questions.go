package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/interview"
	"evendrop/geometry"
	"evendrop/tdc/job/record"
)

// errLeft is the end of somebody's questions who typed quit.
var errLeft = errors.New("left: nothing was written")

// questions asks for what the flags did not say. The answers become flags, so that there
// is one road from either to a job.
func (b beginning) questions(begun *newjob.Begun) error {
	s, err := b.Setup()
	if err != nil {
		return err
	}
	i := interview.New(interview.Facts{Unit: *b.Flags.Unit, Engine: s.Engine, Sense: s.Protractor.Sense, Tried: b.Given("counts"), Gauge: s.Gauge.Kind}, b.known)
	b.tell("")
	b.remark("Some ten questions. Press Enter where something is unknown, or for the answer in brackets; ? says what is meant, back goes back, quit leaves.")
	if err := b.converse(i); err != nil {
		return err
	}
	f := i.Facts()
	begun.Beside, begun.Marks, begun.Sheet, begun.Setup.Protractor.Sides = f.Beside, f.Marks, f.Sheet, f.Sides
	return b.state(f)
}

// known tells whether the flags say what a question asks for. A length that was given
// without --unit is in mm, and so is the job.
func (b beginning) known(topic string) bool {
	switch topic {
	case "offset":
		return b.Given("pin-offset") || b.Given("bore-offset")
	case "unit":
		return b.Given("unit") || b.Given("stroke") || b.Given("rod") || b.Given("bore")
	case "marks", "sheet":
		return false
	}
	if slices.Contains(record.Keys, topic) {
		return false
	}
	return b.Given(topic)
}

// converse puts one question after the other.
func (c console) converse(i *interview.Interview) error {
	for {
		q, more := i.Question()
		if !more {
			return nil
		}
		c.put(q)
		line, ok := c.line()
		if !ok {
			c.tell("")
			return errNoAnswer
		}
		reply := i.Answer(line)
		if reply.Left {
			return errLeft
		}
		if reply.Says != "" {
			c.remark(reply.Says)
		}
		if reply.Picture != "" {
			c.tell("%s", reply.Picture)
		}
	}
}

// put shows a question; what is typed comes behind it.
func (c console) put(q interview.Question) {
	for n, choice := range q.Choices {
		c.tell("  %d  %s", n+1, choice)
	}
	text := q.Text
	if q.Usual != "" {
		text += " [" + q.Usual + "]:"
	}
	for before, last, more := strings.Cut(text, "\n"); ; before, last, more = strings.Cut(last, "\n") {
		if !more {
			fmt.Fprint(c.stderr, form.Wrap(before, c.width-answerRoom), " ")
			return
		}
		c.remark(before)
	}
}

// answerRoom is what a question leaves of the line for its answer, in characters.
const answerRoom = 8

// state gives the flags what was answered.
func (b beginning) state(f interview.Facts) error {
	for _, flag := range []struct{ name, value string }{
		{"name", f.Name}, {"unit", f.Unit},
		{"stroke", asFlag(f.Engine.Stroke)}, {"bore", asFlag(f.Engine.Bore)}, {"rod", asFlag(f.Engine.Rod)},
		{"pin-offset", statedOff(f, f.Engine.PinOffset)}, {"bore-offset", statedOff(f, f.Engine.BoreOffset)},
		{"counts", tried(f)}, {"wraps", wrapsFlag(f)}, {"gauge", string(f.Gauge)}, {"gauge-counts", gaugeCounts(f)},
	} {
		if flag.value == "" || b.Given(flag.name) {
			continue
		}
		if err := b.Set.Set(flag.name, flag.value); err != nil {
			return err
		}
	}
	return nil
}

// asFlag is a length with its unit; "" of one that is not known.
func asFlag(l geometry.Length) string {
	if l == 0 {
		return ""
	}
	return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) + " mm"
}

func statedOff(f interview.Facts, l geometry.Length) string {
	switch {
	case !f.Engine.OffsetStated:
		return ""
	case l == 0:
		return "0"
	}
	return asFlag(l)
}

func tried(f interview.Facts) string {
	if !f.Tried {
		return ""
	}
	return f.Sense.String()
}

func wrapsFlag(f interview.Facts) string {
	if f.Scale == 0 {
		return ""
	}
	return strconv.Itoa(int(f.Scale))
}

func gaugeCounts(f interview.Facts) string {
	if f.GaugeUp {
		return "up"
	}
	return "down"
}
