package class

import (
	"math"
	"os"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// Marked is the answers of a class, marked.
type Marked struct{ rows []row }

// row is a learner's answer against the truth, and what evendrop makes of the same job.
type row struct {
	answered
	practice.Marked
	Own own
}

// own is what evendrop finds from an engine's job.
type own struct {
	Off, Within float64 // degrees, of the truth and late positive; half the 95 % interval
	Pin         mark.Verdict
	Untold      string // why TDC cannot be determined; "" where it can
}

// Check marks the answers in a file to the class in a folder, whose key is in another; "" for
// the one in the folder. An error is of a key, answers or a job that cannot be read, and of
// a job that does not tell TDC.
func Check(folder, key, file string) (Marked, error) {
	answers, err := readKey(keyIn(folder, key))
	if err != nil {
		return Marked{}, err
	}
	list, err := readAnswers(file, len(answers))
	if err != nil {
		return Marked{}, err
	}
	var m Marked
	own := map[int]own{}
	for _, g := range list {
		truth := answers[g.Engine-1]
		if _, known := own[g.Engine]; !known {
			if own[g.Engine], err = ownOf(jobIn(folder, g.Engine), truth); err != nil {
				return m, err
			}
		}
		m.rows = append(m.rows, row{g, truth.Mark(g.TDC), own[g.Engine]})
	}
	return m, nil
}

// readKey is the answers of a class, the first engine's first.
func readKey(key string) (list []practice.Answer, err error) {
	for n := 1; n <= practice.LargestClass; n++ {
		path := answerIn(key, n)
		if _, err := os.Stat(path); err != nil {
			break
		}
		answer, err := rehearse.Kept(path)
		if err != nil {
			return nil, err
		}
		list = append(list, answer)
	}
	if len(list) == 0 {
		return nil, errNoClass(key)
	}
	return list, nil
}

// ownOf asks the job in a folder.
func ownOf(folder string, truth practice.Answer) (own, error) {
	j, err := job.Open(folder)
	if err != nil {
		return own{}, err
	}
	f, err := found.Of(j)
	if err != nil {
		return own{}, err
	}
	r := f.Results[0]
	o := own{Off: truth.Mark(r.TDC.Angle).Off, Within: r.TDC.Expanded.Degrees(), Untold: f.Untold(r)}
	if len(f.Marks) > 0 {
		o.Pin = f.Marks[0].Verdict
	}
	return o, nil
}

// promise is how a learner's ± came out.
type promise string

// The promises.
const (
	noPromise promise = ""
	heldIt    promise = "held"
	brokeIt   promise = "not held"
	tooWide   promise = "held, but wide" // it would have held with a third of it, and of what evendrop promises
)

// promise tells whether the truth lies in what was promised. A promise three times as wide as
// evendrop's own, from the same job, is held and tells little.
func (r row) promise() promise {
	const wide = 3
	switch {
	case r.answered.Within == nil:
		return noPromise
	case r.OffAsShown() > r.promised()+1e-9:
		return brokeIt
	case r.Own.Untold == "" && r.promised() > wide*math.Max(r.Own.Within, math.Abs(r.Off))+1e-9:
		return tooWide
	}
	return heldIt
}

// promised is the ± in degrees; 0 where there is none.
func (r row) promised() float64 {
	if r.answered.Within == nil {
		return 0
	}
	return words.Stated(*r.answered.Within)
}

// right tells whether TDC is right.
func (r row) right() bool { return r.Marked.Within() }

// call is the verdict in the word that the summary counts by.
func (r row) call() string {
	if r.right() {
		return "right"
	}
	return "wrong"
}

func (r row) verdict() string {
	if r.right() {
		return within
	}
	return outside
}

// pinTruth is the verdict on the row's pin.
func (r row) pinTruth() string { return pinTruth(r.Answer) }

func (r row) pinRight() bool { return r.pin() == r.pinTruth() }

// pin is what the learner said of it.
func (r row) pin() string { return r.answered.Pin }
