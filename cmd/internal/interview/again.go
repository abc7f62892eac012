package interview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Added is a cylinder that comes to a job that there is already; a number of 0 is none, and
// to read on.
type Added struct {
	Number int
	taken  []int
}

// Again asks what is added to a job, whose cylinders have these numbers.
func Again(f Facts, numbers []int) *Interview {
	f.Added = Added{taken: numbers}
	return begin(f, again, func(string) bool { return false })
}

// again is the questions about a job that there is already.
var again = []topic{
	{name: "add", asks: fixed("Read on, or add to it? read, cylinder or gauge", "read"), take: takeAdd, help: againHelp},
	{name: "number", asks: asksNumber, when: addsCylinder, take: takeNumber, help: numberHelp},
	{name: "gauge", asks: fixed("Which one? stop, dwell, borescope, rod or dial, or several", "stop"), when: func(f Facts) bool { return f.second && !f.Beside.any() }, take: takeSecond, help: meansHelp},
}

func addsCylinder(f Facts) bool { return f.Added.Number > 0 }

// any tells whether there is any of them.
func (b Beside) any() bool { return b != Beside{} }

// takeAdd reads what is to be added; a gauge's own name does too.
func takeAdd(f Facts, answer string) (Facts, string, error) {
	f.Added.Number, f.second, f.Beside = 0, false, Beside{}
	switch w := strings.TrimPrefix(word(answer), "a "); w {
	case "", "read", "read on", "readings", "reading", "r", "no", "n":
	case "cylinder", "c", "add a cylinder":
		for f.Added.Number = 1; slices.Contains(f.Added.taken, f.Added.Number); f.Added.Number++ {
		}
	case "gauge", "g", "second gauge":
		f.second = true
	default:
		if g, says, err := takeSecond(f, answer); err == nil {
			g.second = true
			return g, says, nil
		}
		return f, "", fmt.Errorf("%s is none of them: type read, cylinder or gauge", quoted(answer))
	}
	return f, "", nil
}

// takeSecond reads which other gauges there are. One of depths gives equal views.
func takeSecond(f Facts, answer string) (Facts, string, error) {
	if answer == "" {
		answer = "stop"
	}
	g, _, err := takeMeans(Facts{}, answer)
	if err != nil {
		return f, "", err
	}
	f.Beside = g.Beside
	if g.Gauge != "" {
		f.Beside.Views = true
		return f, fmt.Sprintf("A job has one gauge for depths. The %s goes in as equal views: two angles at which it shows the same, whatever that is.", g.Gauge), nil
	}
	return f, "", nil
}

func asksNumber(f Facts) (text, usual string) {
	return "The cylinder's number", strconv.Itoa(f.Added.Number)
}

const mostCylinders = 99

// takeNumber reads a number that no cylinder of the job has.
func takeNumber(f Facts, answer string) (Facts, string, error) {
	if answer == "" {
		return f, "", nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(word(answer), "cylinder")))
	switch {
	case err != nil || n < 1 || n > mostCylinders:
		return f, "", fmt.Errorf("%s is not the number of a cylinder: type one from 1 to %d", quoted(answer), mostCylinders)
	case slices.Contains(f.Added.taken, n):
		return f, "", fmt.Errorf("the job has a cylinder %d: type another number, or go back and read on", n)
	}
	f.Added.Number = n
	return f, "", nil
}

var (
	againHelp = help{says: "The folder holds a job. With read you go on typing readings into it. cylinder adds another one, read with the same " +
		"protractor and gauge, and its throw is compared with the first one's. A second gauge on the same piston, such as a " +
		"stop beside a dial, goes into the same job and counts in the same answer."}

	numberHelp = help{says: "As the maker counts the cylinders. Throws are compared with the lowest number's."}
)
