package find

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// Headline is the finding that a person acts on, in a sentence, and which marks it leaves
// out; empty without marks.
func (f Answer) Headline() string {
	switch again := len(f.Again); {
	case again > 0 && len(f.Marks) == 0:
		return "No mark is judged: the protractor moved, and " + theyMay(again) + "."
	case again > 0:
		return f.judged() + fmt.Sprintf(" %s not judged: the protractor moved, and %s.", areMarks(again), theyMay(again))
	}
	return f.judged()
}

// judged is what the marks that were judged come to; empty without any.
func (f Answer) judged() string {
	outside, close := f.Called(mark.Outside), f.Called(mark.TooClose)
	limits := 0
	for _, m := range f.Marks {
		if m.HasLimit {
			limits++
		}
	}
	d := f.Diagnosis
	switch {
	case len(f.Marks) == 0:
		return ""
	case len(outside) > 0:
		return f.are(outside) + " outside " + words.ItsLimit(len(outside)) + ", " + pointing(d, "which points to")
	case d.Tried > 0 || d.Explanations == nil:
		what := "No mark can be called outside its limit, "
		if limits == 0 {
			what = "No limits were given, "
		}
		return what + pointing(d, "but together the marks point to")
	case len(close) > 0:
		return f.are(close) + " too close to " + words.ItsLimit(len(close)) + " to call."
	case limits == len(f.Marks):
		return f.every() + " is within its limit, and no joint has to have moved to explain these marks."
	}
	return "No joint has to have moved to explain these marks."
}

// every is every mark, but for those that have to be read again.
func (f Answer) every() string {
	if len(f.Again) > 0 {
		return "Every mark that can be judged"
	}
	return "Every mark"
}

// areMarks is so many marks and their verb.
func areMarks(n int) string {
	if n == 1 {
		return "One is"
	}
	return fmt.Sprintf("%d are", n)
}

// theyMay is what so many marks may have been.
func theyMay(n int) string {
	if n == 1 {
		return "it may have been read before. Read it again"
	}
	return "they may have been read before. Read them again"
}

// are is the marks and their verb: "One of 4 marks (locking pin hole) is". A name may
// be plural: no verb goes with it.
func (f Answer) are(marks []mark.Judged) string {
	switch {
	case len(marks) > 1:
		return fmt.Sprintf("%d of %d marks are", len(marks), len(f.Marks))
	case len(f.Marks) == 1:
		return fmt.Sprintf("The only mark (%s) is", marks[0].Name)
	}
	return fmt.Sprintf("One of %d marks (%s) is", len(f.Marks), marks[0].Name)
}

// pointing goes on from a finding: what it points to, by words that lead there.
func pointing(d joint.Diagnosis, to string) string {
	likely, _, more := d.Ranked()
	end := "."
	if len(more) > 0 && byLimits(likely) {
		end = fmt.Sprintf("; %s would fit better.", words.Count(len(more[0].Slips), "slip"))
	}
	if len(more) > 0 && d.OnBench {
		end = fmt.Sprintf(". %s %s.", words.OffBench, words.Explanation(more[0]))
	}
	switch {
	case len(likely) == 0:
		return fmt.Sprintf("and %s what the marks show: check what was read, and the given angles, before you suspect a part.", words.NoSlips(d.Tried))
	case len(likely) > 1:
		return fmt.Sprintf("and the marks cannot tell %s apart; the likeliest is %s%s", sets(len(likely), d.Tried), words.Explanation(likely[0]), end)
	case !single(likely[0]):
		return fmt.Sprintf("%s %s; the marks cannot tell %s apart%s", to, words.Explanation(likely[0]), those(d), end)
	case likely[0].DegreesOfFreedom > 0 && !likely[0].ByLimits() && !d.OnBench:
		return fmt.Sprintf("%s %s; %s.", to, words.Explanation(likely[0]), words.Fits(likely[0]))
	}
	return fmt.Sprintf("%s %s%s", to, words.Explanation(likely[0]), end)
}

// byLimits tells whether what is likeliest stands by the limits alone.
func byLimits(likely []joint.Explanation) bool { return len(likely) == 0 || likely[0].ByLimits() }

// sets is so many explanations of so many slips each.
func sets(n, slips int) string {
	if slips == 1 {
		return words.Count(n, "explanation")
	}
	return fmt.Sprintf("%s of %s each", words.Count(n, "explanation"), words.Count(slips, "slip"))
}

// those is what stands for the joints that an explanation joins by "or".
func those(d joint.Diagnosis) string {
	if d.Tried == 1 {
		return "them"
	}
	return "the joints at each \"or\""
}

// single tells whether an explanation names one joint for every slip.
func single(e joint.Explanation) bool {
	return !slices.ContainsFunc(e.Slips, func(s joint.Slip) bool { return len(s.Joints) > 1 })
}

// lookFirst is the cheapest look that would tell more; empty without one.
func (f Answer) lookFirst() string {
	if len(f.Diagnosis.TellApart) == 0 {
		return f.readFirst()
	}
	return words.LookFirst(f.Diagnosis.TellApart[0])
}
