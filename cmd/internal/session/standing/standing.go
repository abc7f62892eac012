// Package standing is where a job stands while its readings are typed, and what is said of
// it: by how much TDC moved, what is suspect, and what to read next. It keeps nothing.
package standing

import (
	"fmt"
	"strconv"
	"strings"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// State is where a job stands while its readings are typed.
type State struct {
	Job      job.Job
	File     string             // the readings file
	Readings []evidence.Reading // of all sets
	Set      int                // that is read now
	Current  []evidence.Reading // of that set: by them the result is
	Others   []string           // what else there is of it, in words: stops, dwells, views
	Result   *tdc.Result        // nil while the readings do not tell TDC
	Why      error              // why not; nil while they are too few to ask
	Next     *plan.Next         // nil when no place is left to read
	Seek     *Sought            // what to look for next, in place of a reading; nil of a reading
	Wished   int                // how often early readings were asked for again
	Doubted  []evidence.Reading // that were asked about, and left as typed
	Width    int                // of a line of text, in characters; Unbroken
}

// Sought is what to look for next through a borescope, in words, with the crank turned one way.
type Sought struct {
	Words string
	Turn  evidence.TurnDirection
}

// Unbroken is the width of lines that are not broken: a paragraph is one, without indent and
// number, for whoever sets them otherwise.
const Unbroken = 0

// Least is how few readings TDC is asked of.
const Least = 3

// indent sets what belongs to a reading apart from its number.
const indent = "     "

// Answer is what is said after the last reading, before being where the job stood
// without it, with what is asked about it.
func (j State) Answer(before State, asked string) string {
	parts := []string{j.state(before)}
	if asked != "" && j.Result == nil && len(j.Current) >= Least { // what is asked tells why
		parts[0] = "TDC cannot be determined yet."
	}
	if j.Result == nil || j.Result.AgainstTurn() {
		parts[0] = "Kept. " + parts[0]
	}
	if moved := j.moved(before); moved != "" {
		parts = append(parts, moved)
	} else if asked != "" {
		parts = append(parts, asked)
	}
	if suspects := j.suspects(before); suspects != "" {
		parts = append(parts, suspects)
	}
	parts = append(parts, j.NextWords())
	return j.Numbered(len(j.Readings), j.Block(parts))
}

// Numbered is a block behind a number, where it is indented.
func (j State) Numbered(n int, block string) string {
	if j.Width == Unbroken {
		return block
	}
	return fmt.Sprintf("%3d  ", n) + strings.TrimPrefix(block, indent)
}

// Block is sentences, each on lines of its own.
func (j State) Block(parts []string) string {
	var out strings.Builder
	for _, p := range parts {
		switch {
		case p == "":
		case j.Width == Unbroken:
			fmt.Fprintln(&out, p)
		default:
			fmt.Fprintln(&out, indent+strings.ReplaceAll(form.Wrap(p, j.Width-len(indent)), "\n", "\n"+indent))
		}
	}
	return out.String()
}

// Standing is where the job stands, after anything but a reading.
func (j State) Standing() string {
	if len(j.Readings)+len(j.Others) == 0 {
		return j.Block([]string{"No readings yet. " + j.state(State{}), j.NextWords()})
	}
	return j.Block([]string{words.Capital(j.count()) + ". " + j.state(State{}), j.NextWords()})
}

// Corrected is what is said after a reading was put right, before being where the job
// stood until then, with what is asked then.
func (j State) Corrected(before State, says, asked string) string {
	state := j.state(before)
	if len(j.Readings) > 0 {
		state = words.Capital(j.count()) + ". " + state
	}
	return j.Block([]string{says, state, j.moved(before), asked, j.suspects(before), j.NextWords()})
}

// After is what is said once something else than a reading was kept, before being where
// the job stood without it.
func (j State) After(before State, what string) string {
	return j.Block([]string{"Kept: " + what, j.state(before), j.NextWords()})
}

// count is how many readings there are, and in a later set how many of it; and what else.
func (j State) count() string {
	var list []string
	if len(j.Readings) > 0 || len(j.Others) == 0 {
		list = append(list, words.Count(len(j.Readings), "reading"))
	}
	text := words.And(append(list, j.Others...))
	if j.Set > 1 {
		text += fmt.Sprintf(", %s in set %d", numberOr(len(j.Current), "none"), j.Set)
	}
	return text
}

// numberOr is a number, or a word for zero.
func numberOr(n int, none string) string {
	if n == 0 {
		return none
	}
	return strconv.Itoa(n)
}

// state is TDC, its interval and by how much it moved.
func (j State) state(before State) string {
	switch {
	case j.Result == nil && len(j.Current) < Least:
		return fmt.Sprintf("TDC needs at least %d readings, on both sides of it.", Least)
	case j.Result == nil:
		return fmt.Sprintf("TDC cannot be determined yet: %v.", j.Bench().Refused(j.Why))
	}
	if j.Result.AgainstTurn() {
		return words.Capital(j.Find().Untold(*j.Result)) + "."
	}
	t := j.Result.TDC
	text := "TDC " + j.Bench().ReadsWithin(t) + " (95 %)"
	if j.Result.CannotTell != nil {
		return fmt.Sprintf("TDC cannot be determined from these readings: %s. Do not rely on %s.", j.Find().Untold(*j.Result), text)
	}
	if before.Result != nil {
		moved := j.Job.Setup.Protractor.Grows((t.Angle - before.Result.TDC.Angle).Signed())
		text += ", moved " + words.Signed(moved.Degrees(), words.Decimals(t.Expanded.Degrees()))
	}
	return text + "." + j.agreed(before)
}

// agreed is what the readings agree to, where the protractor's own error makes more of it,
// and, when it comes to that, that the protractor is now the limit.
func (j State) agreed(before State) string {
	whole, readings := words.WithinDegrees(j.Result.TDC.Expanded), words.WithinDegrees(j.Result.AgreeTo.Expanded)
	if whole == readings {
		return ""
	}
	text := fmt.Sprintf(" The readings agree to %s.", readings)
	if j.limited() && !(before.Result != nil && before.limited()) {
		text += fmt.Sprintf(" The protractor's own error of %s deg is now the limit: more readings hardly help, a finer protractor does. %s",
			words.Plain(j.Job.Setup.Protractor.Error.Degrees()), words.MoveWheel(j.Set+1))
	}
	return text
}

// limited tells whether what the readings agree to is so much less than the protractor's
// own error that it hardly counts beside it.
func (j State) limited() bool {
	const hardly = 0.5 // a half beside the whole widens it by an eighth
	return j.Result.AgreeTo.Expanded < hardly*j.Job.Setup.Protractor.Error
}

// fitted tells whether TDC is determined from the readings: they may be too few, and
// other evidence determine it.
func (j State) fitted() bool { return j.Result != nil && len(j.Result.Readings) > 0 }

// NextWords is the next best reading in a sentence, or what to look for in its place.
func (j State) NextWords() string {
	if j.Seek != nil {
		return j.Seek.Words
	}
	p, ok := j.Place()
	if !ok {
		return ""
	}
	text := fmt.Sprintf("Next: about %s down on the %s side, turning %s", p.Drop, p.Side, p.Turn)
	if p.Angle == "" {
		motion := "coming up"
		if (p.Side == falling) == (p.Turn == evidence.Forward) {
			motion = "going down"
		}
		return text + ", the piston " + motion + "."
	}
	text += fmt.Sprintf(" (protractor near %s, gauge near %s)", p.Angle, p.Gauge)
	if p.Then == "" {
		return text + "."
	}
	text += fmt.Sprintf(": then they agree to ± %s deg.", p.Then)
	if p.Enough {
		text += " More readings will hardly help."
	}
	if j.Wished >= j.Wishes() {
		return text
	}
	return text + j.closing()
}

// enough tells whether another reading hardly helps.
func (j State) enough() bool {
	return j.Next != nil && j.Result != nil && len(j.Current) >= plan.Usual && float64(j.Next.Uncertainty) > hardlyBetter*float64(j.Result.AgreeTo.Uncertainty)
}

// Wishes is how often early readings are to be asked for again by now: once there are as
// many as are usual, and once more when the end comes near.
func (j State) Wishes() int {
	switch {
	case !j.fitted() || j.closing() == "":
		return 0
	case j.enough():
		return 2
	}
	return 1
}

// closing asks for early readings again before the end; nothing while more are wanted.
func (j State) closing() string {
	places := j.early()
	if len(places) == 0 {
		return ""
	}
	return fmt.Sprintf(" Before the end read two early places again, %s: only that shows what moved at the last readings.", words.And(places))
}

// early is the places of early readings to read again before the end; none while more are
// wanted.
func (j State) early() (places []string) {
	if len(j.Current) < plan.Usual {
		return nil
	}
	for _, r := range plan.Closing(*j.Result) {
		places = append(places, fmt.Sprintf("%s turning %s", j.Bench().Reads(r.Angle, 1), r.Turn))
	}
	return places
}

// From the usual readings on, a next one that leaves more than this share of the
// uncertainty is hardly worth turning the crank for.
const hardlyBetter = 0.97

// Find is an answer of the job that nothing was found of yet, for its words.
func (j State) Find() find.Answer { return find.Answer{All: found.All{Job: j.Job}} }

// Bench is how the job shows things as its readings are written.
func (j State) Bench() words.Bench { return words.NewBench(j.Job.Setup, j.Job.Unit) }

// moved says what is found to have moved with the last reading; "" where that was said
// before.
func (j State) moved(before State) string {
	if j.Result == nil || j.Result.Slip == nil {
		return ""
	}
	if b := before.Result; b != nil && b.Slip != nil && b.Set == j.Result.Set && b.Slip.Kind == j.Result.Slip.Kind {
		return ""
	}
	for _, f := range j.Result.Findings {
		switch f.(type) {
		case finding.ProtractorMoved, finding.GaugeMoved, finding.TurnSwapped:
			return j.Bench().Finding(f)
		}
	}
	return ""
}

// News is what a screen of numbers does not show: what moved, and which earlier readings have
// come to be suspect.
func (j State) News(before State) (list []string) {
	if moved := j.moved(before); moved != "" {
		list = append(list, moved)
	}
	if suspects := j.suspects(before); suspects != "" {
		list = append(list, suspects)
	}
	return list
}

// suspects names the readings before the last that have come to be suspect.
func (j State) suspects(before State) string {
	if j.Result == nil {
		return ""
	}
	old := map[int]bool{}
	if before.Result != nil {
		for _, r := range before.Result.Readings {
			old[r.Line] = r.Suspect
		}
	}
	var names []string
	earlier := len(j.Readings) - len(j.Current)
	for i, r := range j.Result.Readings {
		if r.Suspect && !old[r.Line] && i < len(j.Current)-1 {
			names = append(names, fmt.Sprintf("reading %d, %s deg %s", earlier+i+1, j.Bench().Reads(r.Angle, 1), j.Bench().Depth(j.Job.Setup.Gauge.Falling(j.Current[i].Depth))))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "Suspect now: " + strings.Join(names, "; ") + ". Read there again."
}
