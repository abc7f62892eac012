package notebook

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// Emptied is a readings file that had readings and has none, because another program
// emptied it or took it away. Nothing is written into it until that is meant.
type Emptied struct {
	File string
	Had  int
	Gone bool
}

func (e *Emptied) Error() string {
	state := "is empty now"
	if e.Gone {
		state = "is gone"
	}
	return source.OneLine(fmt.Sprintf("%s: %s, and had %s before: another program did that. Nothing was written: save the readings there again", e.File, state, readingsOf(e.Had)))
}

func readingsOf(n int) string {
	if n == 1 {
		return "one reading"
	}
	return fmt.Sprintf("%d readings", n)
}

// savingTakes is how long an editor may take between emptying a file and filling it.
const savingTakes = time.Second

// look is what the file holds. One that has lost all its readings is looked at again
// for as long as an editor may still be saving it, and then *Emptied.
func (n *Notebook) look() ([]byte, error) {
	data, err := n.held.Read()
	if err != nil || n.last == 0 || !sheet.Blank(n.path, data) {
		n.blank = time.Time{}
		return data, err
	}
	if n.blank.IsZero() {
		n.blank = time.Now()
	}
	if time.Since(n.blank) < savingTakes {
		return nil, errSaving
	}
	return nil, &Emptied{File: n.path, Had: n.last, Gone: data == nil}
}

// errSaving is a file that an editor seems to be saving.
var errSaving = errors.New("is being saved by another program again and again: type the same again when that is over")

// TakeAsIs takes a file that was emptied as it is: that is meant.
func (n *Notebook) TakeAsIs() {
	n.lost += len(n.kept)
	n.last, n.kept = 0, nil
}

// take reads what the file holds, and finds out what another program made of it.
func (n *Notebook) take(data []byte) ([]evidence.Reading, error) {
	readings, err := n.readings(data)
	if err != nil {
		return nil, err
	}
	if len(readings) < n.last {
		n.tell("%s was saved by another program, and has %s where it had %d.", n.path, readingsOf(len(readings)), n.last)
	}
	n.last = len(readings)
	var still []kept
	there := map[evidence.Reading]int{}
	for _, r := range readings {
		there[withoutLine(r)]++
	}
	for _, k := range n.kept {
		if there[k.reading]--; there[k.reading] >= 0 {
			still = append(still, k)
			continue
		}
		n.lost++
		n.tell("%s was saved by another program, and the reading %s, which was kept here, is no longer in it. Type it again where it was right.", n.path, k.typed)
	}
	n.kept = still
	return readings, nil
}

// kept is a reading that was added.
type kept struct {
	typed   string
	reading evidence.Reading // without its line
}

// News is what was found out about the file since it was asked for last, in words; ""
// of nothing.
func (n *Notebook) News() string {
	news := strings.Join(n.news, "\n")
	n.news = nil
	return news
}

func (n *Notebook) tell(format string, args ...any) {
	n.news = append(n.news, fmt.Sprintf(format, args...))
}

// Lost is how many of the readings that were added here other programs took out.
func (n *Notebook) Lost() int { return n.lost }

// has is how often a reading is among others, wherever it stands.
func has(readings []evidence.Reading, r evidence.Reading) int {
	r = withoutLine(r)
	count := 0
	for _, other := range readings {
		if withoutLine(other) == r {
			count++
		}
	}
	return count
}

func withoutLine(r evidence.Reading) evidence.Reading {
	r.Line = 0
	return r
}
