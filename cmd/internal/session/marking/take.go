package marking

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
)

// amount is how far a mark is off.
type amount struct {
	value     float64 // late positive
	unit      mark.Unit
	alongSaid bool   // of a length: a chord or an arc
	of        string // what stood behind the unit: a radius, or a number of teeth
}

func (f *Form) takeName(answer string) error {
	taken := slices.ContainsFunc(f.job.Lobes, func(l lobe.Lobe) bool { return l.Name == answer })
	for _, m := range f.job.Marks {
		if m.Name != answer {
			continue
		}
		f.again, f.mark.On = true, m.On
		taken = taken || m.Off != nil || evidence.SetOf(m.Set) == f.set
	}
	if taken {
		return fmt.Errorf("%q is in the job already: give this one a name of its own", answer)
	}
	f.mark.Name = answer
	return nil
}

func (f *Form) askOn() string {
	return "What does " + f.mark.Name + " sit on: " + words.Or(f.members()) + "?"
}

// members is what a mark of this job may sit on.
func (f *Form) members() []string {
	if f.job.Drive.Layout == "" && len(f.job.Drive.Joints) == 0 {
		return []string{"crank", "flywheel", "pulley", "cam", "inlet cam", "exhaust cam", "inlet sprocket", "exhaust sprocket"}
	}
	return f.job.Drive.Members()
}

func (f *Form) takeOn(answer string) (err error) {
	f.mark.On, err = f.member(answer)
	return err
}

// member is a member by what somebody calls it. Where the job has no drive the mark is
// checked with it once it is whole.
func (f *Form) member(answer string) (string, error) {
	member, err := names.Read(answer, f.members())
	d := f.job.Drive
	if err != nil && d.Layout == "" && len(d.Joints) == 0 {
		member, err = names.Read(answer, mark.Drive{}.Members())
	}
	if err != nil {
		return "", fmt.Errorf("%q is not a part of the drive: %w", answer, bare(err))
	}
	return member, nil
}

// bare is an error of a word with what to type instead, as it is typed here.
func bare(err error) error {
	if unknown, is := errors.AsType[*names.Unknown](err); is {
		return errors.New(unknown.Bare())
	}
	return err
}

// usualLayout is the simplest drive that has the member.
func (f *Form) usualLayout() string {
	if f.mark.On == "cam" || strings.HasPrefix(f.mark.On, "cam ") {
		return mark.Layouts[0]
	}
	return mark.Layouts[1]
}

func (f *Form) takeLayout(answer string) (err error) {
	f.layout, err = names.Read(answer, mark.Layouts)
	return bare(err)
}

// notKnown is what Enter stands for where there may be no answer.
const notKnown = "not known"

func (f *Form) takeSprocket(answer string) error {
	if answer == notKnown {
		return nil
	}
	teeth, err := whole(answer)
	if err != nil {
		return err
	}
	const least = 8 // fewer bend a chain or a belt too sharply (common practice, no source)
	if n, _ := strconv.Atoi(string(teeth)); n < least {
		return fmt.Errorf("a sprocket on a crank has %d teeth or more: type them, such as 21, or leave it empty where nobody knows", least)
	}
	f.sprocket = teeth
	return nil
}

// whole is a number of teeth.
func whole(answer string) (toml.Literal, error) {
	const most = 1000 // more than any wheel of an engine has
	n, err := strconv.Atoi(strings.Fields(answer)[0])
	if err != nil || n < 1 || n > most {
		return "", errors.New("type a whole number of teeth, such as 21")
	}
	return toml.Literal(strconv.Itoa(n)), nil
}

// takePlace takes what the protractor reads, or how far the mark is off.
func (f *Form) takePlace(answer string) error {
	text, isOff := strings.CutPrefix(strings.ToLower(answer), "off ")
	text = strings.TrimPrefix(text, "by ")
	if text, against, has := strings.Cut(text, " against "); has {
		if err := f.answer("against", against); err != nil {
			return err
		}
		return f.takePlace(text)
	}
	off, err := parseAmount(text)
	if err == nil {
		return f.takeOff(off)
	}
	if errors.Is(err, errNoUnit) && !isOff {
		f.read, err = f.angles(answer)
	} else if errors.Is(err, errNoUnit) {
		err = fmt.Errorf("%q has no unit: type for example off 4.1 mm chord 21, off 1 tooth, off 3 cam degrees late", answer)
	}
	return err
}

// takeOff takes how far the mark is off, and what may stand behind it: a radius, or a
// wheel's teeth.
func (f *Form) takeOff(off amount) (err error) {
	f.off, f.alongSaid = off, off.alongSaid
	switch {
	case off.of == "":
	case f.inLength():
		err = f.takeRadius(off.of)
	case f.inTeeth():
		err = f.takePitches(off.of)
	default:
		err = fmt.Errorf("%q stands behind degrees, which need no more: leave it out", off.of)
	}
	return err
}

// angles is readings of the protractor.
func (f *Form) angles(answer string) (list []toml.Literal, err error) {
	fields := strings.Fields(strings.NewReplacer(",", " ", ";", " ").Replace(answer))
	if strings.Count(answer, ",") == 1 && len(fields) == 2 && !strings.Contains(answer, ", ") {
		fields = []string{answer} // a decimal comma
	}
	for i := 0; i < len(fields); i++ {
		text := fields[i]
		if i+1 < len(fields) && strings.Trim(fields[i+1], "0123456789.,°'-") != "" { // 12 BTDC
			i++
			text += " " + fields[i]
		}
		written, err := measure.ParseAngle(text)
		if err == nil {
			_, err = f.job.Setup.Protractor.Crank(written)
		}
		if err != nil {
			return nil, fmt.Errorf("%q is neither what the protractor reads, such as 3.8, nor how far it is off, such as 4.1 mm late: %w", text, err)
		}
		list = append(list, typed.Literal(text))
	}
	if len(list) == 0 {
		return nil, errors.New("type what the protractor reads, such as 3.8, or how far it is off, such as 4.1 mm late")
	}
	return list, nil
}

// usual is what somebody can see of an amount in each unit (common practice, no source).
var usual = map[mark.Unit]float64{mark.Chord: 0.5, mark.Arc: 0.5, mark.CrankDegrees: 0.5, mark.CamDegrees: 0.5, mark.Teeth: 0.25}

func (f *Form) askSure() string {
	unit := string(f.off.unit)
	if f.inLength() {
		unit = f.lengths()
	}
	return "How sure is that, either way, in " + unit + "?"
}

// lengths is what lengths are asked for in.
func (f *Form) lengths() string {
	if f.job.Unit == "in" {
		return "inches"
	}
	return f.job.Unit
}

func (f *Form) usualSure() string {
	if f.inLength() && f.job.Unit == "in" {
		return "0.02"
	}
	return string(toml.Number(usual[f.off.unit]))
}

func (f *Form) takeSure(answer string) error {
	x, err := f.sure(answer)
	if err != nil || !(x >= 0 && x <= 1000) {
		return errors.New("type a number such as " + f.usualSure())
	}
	f.knownTo = toml.Number(x)
	return nil
}

// sure is a number in the unit of the job file: mm of a length, in whatever unit it is typed.
func (f *Form) sure(answer string) (float64, error) {
	if !f.inLength() {
		return measure.Decimal(strings.Fields(answer)[0])
	}
	l, err := measure.Length(answer, f.job.Unit)
	const digits = 1e6 // of a mm, that no inch leaves more
	return math.Round(l.Millimetres()*digits) / digits, err
}

func (f *Form) takeAgainst(answer string) (err error) {
	if answer = strings.ToLower(answer); strings.Contains(answer, "tdc") || answer == mark.Crank {
		return nil
	}
	f.mark.Against, err = f.member(answer)
	if err == nil && f.mark.Against == f.mark.On {
		err = fmt.Errorf("that is what %s sits on: what else stood right? Type crank where it was the crank at TDC", f.mark.Name)
	}
	return err
}

func (f *Form) takeAlong(answer string) error {
	switch answer = strings.ToLower(answer); {
	case strings.HasPrefix(answer, "straight"), strings.HasPrefix(answer, "across"), answer == "s":
		f.off.unit = mark.Chord
	case strings.Contains(answer, "rim"), strings.HasPrefix(answer, "along"), answer == "r":
		f.off.unit = mark.Arc
	default:
		return errors.New("type straight or rim")
	}
	return nil
}

func (f *Form) askRadius() string {
	return "How far from the shaft's centre was that measured, in " + f.lengths() + "?"
}

func (f *Form) takeRadius(answer string) error {
	l, err := measure.ParseLength(answer, f.job.Unit)
	if err != nil || l <= 0 {
		return errors.New("type a length above 0, such as 21")
	}
	f.radius = typed.Literal(answer) // a number is bare, what has a unit of its own stands in quotes
	return nil
}

// usualTeeth is how many teeth the wheel of the mark's member has, where that is known.
func (f *Form) usualTeeth() string {
	crank := f.job.Drive.CrankSprocket
	if f.sprocket != "" {
		crank, _ = strconv.Atoi(string(f.sprocket))
	}
	if crank == 0 {
		return ""
	}
	if f.onCam() {
		crank *= 2
	}
	return strconv.Itoa(crank)
}

func (f *Form) takePitches(answer string) (err error) {
	f.pitches, err = whole(answer)
	return err
}

func (f *Form) takeShouldBe(answer string) error {
	if strings.EqualFold(answer, "unknown") {
		f.shouldBe = toml.Quote("unknown")
		return nil
	}
	if _, err := measure.ParseAngle(answer); err != nil {
		return fmt.Errorf("type crank degrees after TDC, such as 0, -12.5 or 12 BTDC, or unknown: %w", err)
	}
	f.shouldBe = typed.Literal(answer)
	return nil
}

func (f *Form) takeLimit(answer string) error {
	if answer == notKnown {
		return nil
	}
	fields := strings.Fields(answer)
	x, err := measure.Decimal(fields[0])
	if err != nil || !(x > 0 && x <= 360) { // nothing is within 0, whatever was measured
		return errors.New("type degrees above 0, up to 360, such as 1.5, or leave it empty")
	}
	f.limit = toml.Number(x)
	return nil
}

// errNoUnit is a text that is not an amount with a unit.
var errNoUnit = errors.New("no unit")

// units are what an amount is followed by.
var units = []struct {
	words []string
	unit  mark.Unit
}{
	{[]string{"cam degrees", "cam degree", "cam deg", "degrees cam", "deg cam"}, mark.CamDegrees},
	{[]string{"crank degrees", "crank degree", "crank deg", "deg crank", "degrees", "degree", "deg", "°"}, mark.CrankDegrees},
	{[]string{"teeth", "tooth", "links", "link"}, mark.Teeth},
	{[]string{"mm arc", "mm along the rim"}, mark.Arc},
	{[]string{"mm chord", "mm straight", "mm across", "mm", "in", "inch", "inches", "\""}, mark.Chord},
}

// parseAmount takes an amount such as 4.1 mm late. In millimetres, as a job file has it.
func parseAmount(text string) (amount, error) {
	fields := strings.Fields(strings.ToLower(text))
	sign, of := 1.0, ""
	if n := len(fields) - 1; n > 1 && strings.ContainsRune("0123456789.", rune(fields[n][0])) {
		fields, of = fields[:n], fields[n]
	}
	if n := len(fields) - 1; n > 0 {
		switch fields[n] {
		case "late", "retarded":
			fields = fields[:n]
		case "early", "advanced":
			sign, fields = -1, fields[:n]
		}
	}
	number, rest := split(strings.Join(fields, " "))
	for _, u := range units {
		if !slices.Contains(u.words, rest) {
			continue
		}
		x, err := measure.Decimal(number)
		if err != nil || sign < 0 && x < 0 {
			return amount{}, fmt.Errorf("%q is not an amount: type for example 4.1 mm late, 1 tooth early, -3 cam degrees", text)
		}
		if strings.HasPrefix(rest, "in") || rest == "\"" {
			const inch = 25.4 // mm, by definition
			x *= inch
		}
		return amount{sign*x + 0, u.unit, strings.HasPrefix(rest, "mm "), of}, nil
	}
	if rest == "" && of == "" && len(fields) < len(strings.Fields(text)) {
		return amount{}, fmt.Errorf("%q has no unit: type for example 4.1 mm late, 1 tooth early, 3 cam degrees late", text)
	}
	return amount{}, errNoUnit
}

// split parts a number from the unit behind it.
func split(text string) (number, unit string) {
	i := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("+-0123456789.,", r) })
	if i < 0 {
		return text, ""
	}
	return text[:i], strings.TrimSpace(text[i:])
}
