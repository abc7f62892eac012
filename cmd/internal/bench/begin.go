package bench

import (
	"errors"
	"slices"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/session"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
)

// readingsFile is that of a job that is begun here.
const readingsFile = "cylinder-1.csv"

// mostLines is how many lines answer the questions of begin, and how often who does may go
// back.
const mostLines = 500

// begin puts the next question, or makes the job.
func (c *Core) begin(r Request) (Response, error) {
	if len(r.Lines) > mostLines || slices.ContainsFunc(r.Lines, func(line string) bool { return len(line) > longestLine }) {
		return Response{}, errors.New("more lines than the questions need: begin again")
	}
	i, reply := asked(r.Lines)
	if _, more := i.Question(); more || reply.Left {
		out := &Interview{Reply: reply.Says, Drawing: reply.Picture, Taken: reply.Taken, Left: reply.Left}
		out.put(i, r.Lines)
		legibly(out)
		return Response{Interview: out}, nil
	}
	out, err := c.made(i.Facts())
	out.Interview = &Interview{Taken: true, Done: true, Reply: reply.Says, Choices: []string{}, Buttons: named(i.Facts())}
	legibly(out.Interview)
	return out, err
}

// named is the marks that were named, each a line that asks about it.
func named(f interview.Facts) []Answer {
	list := []Answer{}
	for _, m := range f.Marks {
		list = append(list, Answer{Line: newjob.MarkLine(m), Shows: m.Name})
	}
	return list
}

// asked is the questions with these lines answered, and what was said to the last.
func asked(lines []string) (i *interview.Interview, reply interview.Reply) {
	i = interview.New(newjob.Unanswered(), func(string) bool { return false })
	for _, line := range lines {
		if _, more := i.Question(); !more || reply.Left {
			break
		}
		reply = i.Answer(line)
	}
	return i, reply
}

// put puts the question that is asked now.
func (out *Interview) put(i *interview.Interview, lines []string) {
	q, _ := i.Question()
	out.Topic, out.Text, out.Usual = q.Topic, q.Text, q.Usual
	out.Choices, out.Number = append([]string{}, q.Choices...), i.Answered()
	out.Buttons = buttons(q, lines)
}

// typed is answers of one word, and what they show on a button.
var typed = []Answer{{"y", "Yes"}, {"n", "No"}, {"dial", "dial"}, {"rod", "rod"}, {"borescope", "borescope"}, {"stop", "stop"}, {"dwell", "dwell"}}

// comesRound is where a scale may, for the questions of that topic.
var comesRound = []Answer{{"0", "0"}, {"360", "360"}, {"180", "180"}, {"90", "90"}, {"720", "720"}}

// buttons is the words that a question takes; none of one that takes any.
func buttons(q interview.Question, lines []string) []Answer {
	list, candidates := []Answer{}, slices.Clone(typed)
	if q.Topic == "wraps" {
		candidates = append(candidates, comesRound...)
	}
	if takes(lines, "no such word") {
		return list
	}
	for _, a := range candidates {
		if takes(lines, a.Line) {
			list = append(list, a)
		}
	}
	return list
}

// takes tells whether a line would be an answer behind others.
func takes(lines []string, line string) bool {
	_, reply := asked(append(slices.Clip(lines), line))
	return reply.Taken
}

// made makes the job of the answers, and opens it.
func (c *Core) made(f interview.Facts) (Response, error) {
	b, err := newjob.Answered(f, job.FileName, readingsFile)
	if err != nil {
		return Response{}, err
	}
	if err := job.CheckBlank(b.JobFile, b.Job()); err != nil {
		return Response{}, err
	}
	out, err := c.sitDown(map[string][]byte{b.JobFile: b.Job(), b.ReadingsFile: b.Readings()}, b.JobFile, 0, true)
	if err != nil {
		return out, err
	}
	out.Said = append(out.Said, shownSaid(toldOf(b))...)
	return out, nil
}

// toldOf is what the command says of a job that it made, but for what to type to it, and where
// the marks that are to be judged are typed on the page.
func toldOf(b newjob.Begun) (said []session.Said) {
	for _, order := range newjob.Orders(b.Setup.Protractor, b.Beside, nil) {
		said = append(said, session.Said{Kind: session.Remark, Text: order})
	}
	if len(b.Marks) > 0 { // the page has a button for each
		var names []string
		for _, m := range b.Marks {
			names = append(names, m.Name)
		}
		said = append(said, session.Said{Kind: session.Remark, Text: "Under Marks, once the protractor is read with it in line: " + words.And(names) + "."})
	}
	if text := b.UntriedOnPage(); text != "" {
		said = append(said, session.Said{Kind: session.Remark, Text: text})
	}
	return said
}
