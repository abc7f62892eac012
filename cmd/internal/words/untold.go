package words

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Untold is why TDC is no answer to go by, to stand after a colon; "" for nil.
func (b Bench) Untold(f finding.Finding) string {
	if f == nil {
		return ""
	}
	if text := b.untold(f); text != "" {
		return text
	}
	panic(fmt.Sprintf("no words for a %T", f))
}

// untold is Untold; "" for a finding that leaves TDC an answer.
func (b Bench) untold(f finding.Finding) string {
	switch f := f.(type) {
	case finding.NotSettled:
		return fmt.Sprintf("the curve fit did not settle (%s)", f.Status)
	case finding.BeyondReason:
		return fmt.Sprintf("they scatter %.0f times as much as the instruments explain", f.Times)
	case finding.PairContradicts:
		return fmt.Sprintf("%s puts it %.2f deg %s than the readings do, and they are too few to overrule it. Read both again, "+
			"with at least three readings on each side of TDC", f.Pair, math.Abs(f.Off.Degrees()), Later(f.Off))
	case finding.TooVague:
		return fmt.Sprintf("it may be anywhere within %.0f deg either way", f.Expanded.Degrees())
	case finding.CountsContradicted:
		return countsContradicted(f)
	case finding.SidesContradicted:
		return "the order of the readings contradicts the turn that they state, so no mark can be called late or early. " +
			"If BTDC and ATDC were mixed up, swap them in every angle; if not, correct " + turnOf(f.Pairs)
	case finding.MovedOneWay:
		return fmt.Sprintf("something moved while they were taken, %s, and turned one way only they cannot show where TDC is since. "+
			"Read both flanks again, and where that is safe turn back and read again", b.after(f.Moment))
	case finding.FlankUnsigned:
		return b.flankUnsigned(f)
	case finding.WrongUnit:
		return fmt.Sprintf("the depths change %s times as much as a stroke of %s makes them: %s", geometry.Decimal(f.Times, 2), b.Stated(f.Stroke), unitCure(f))
	}
	return ""
}

// Refused puts an error that is a finding into words; others have theirs.
func (b Bench) Refused(err error) error {
	var refusal finding.Refusal
	if errors.As(err, &refusal) {
		text := b.Untold(refusal.Finding)
		if in, is := errors.AsType[*tdc.InSet](err); is {
			text = fmt.Sprintf("set %d: %s", in.Set, text)
		}
		return errors.New(text)
	}
	return err
}

func countsContradicted(f finding.CountsContradicted) string {
	move, not, other := "fall", "rise", evidence.Against
	if f.Counts == evidence.Against {
		move, not, other = "rise", "fall", evidence.With
	}
	return fmt.Sprintf("the order of the readings contradicts counts = %q, so no mark can be called late or early. "+
		"Turn the engine by hand, the way it runs, and watch the protractor. If its numbers %s, type counts = %q under [protractor], or --counts %s. If they %s, correct %s",
		f.Counts, move, other, other, not, turnOf(f.Pairs))
}

// turnOf is what states the way that the crank was turned.
func turnOf(pairs bool) string {
	if pairs {
		return "the turn of the readings, or which angle of a pair is which"
	}
	return "the turn of the readings"
}

func (b Bench) flankUnsigned(f finding.FlankUnsigned) string {
	var spans []string
	for _, l := range f.Lines {
		spans = append(spans, fmt.Sprintf("%d to %d", l.From, l.To))
	}
	lines, line := f.File+" lines", "line"
	if f.File == "" {
		lines, line = "readings", "reading"
	}
	return fmt.Sprintf("%s %s go against the way the crank was turned, and fit on the other side of the protractor's zero. "+
		"If they were read there, write %s, in %s %d, and the others likewise", lines, strings.Join(spans, ", "), b.otherSide(f.Angle), line, f.Line)
}

// mayBeUnsigned says that readings may have lost their sign, all typed on one side of
// zero from a first one on.
func (b Bench) mayBeUnsigned(first *finding.Place) string {
	if first == nil {
		return ""
	}
	return fmt.Sprintf(" If some were read there, their sign was left out: write %s, for such a one as %s.", b.otherSide(first.Angle), b.place(*first))
}

// otherSide is how to write a crank angle on the other side of the zero.
func (b Bench) otherSide(crank geometry.Angle) string {
	mirror, side := -crank.Signed(), "ATDC"
	if mirror < 0 {
		side = "BTDC"
	}
	text := evidence.ShortNumber(math.Abs(mirror.Degrees())) + " " + side
	if b.Protractor.Scale != evidence.Quadrants {
		text += ", or " + evidence.ShortNumber(b.Protractor.Shows(mirror).Degrees()+0)
	}
	return text
}

// unitCure is what lengths look like, and what to type.
func unitCure(f finding.WrongUnit) string {
	typed, meant := evidence.ShortNumber(f.Stroke.Millimetres()), geometry.Decimal(f.Meant.Millimetres(), 4)
	switch f.Misread {
	case finding.StrokeInches:
		return fmt.Sprintf(`stroke and rod look like inches. Write them so, as in stroke = "%s in", or unit = "in" where every bare length of the job is in inches`, typed)
	case finding.StrokeCentimetres:
		return "stroke and rod look like centimetres. Write them in mm, as in stroke = " + meant
	case finding.StrokeMetres:
		return "stroke and rod look like metres. Write them in mm, as in stroke = " + meant
	case finding.StrokeMillimetresAsInches:
		return fmt.Sprintf(`stroke and rod look like millimetres taken as inches. Write them so, as in stroke = "%s mm"`, meant)
	case finding.StrokePointLost:
		return "a decimal point seems lost in stroke and rod, or the depths are in centimetres"
	}
	if cure, ok := depthCures[f.Misread]; ok {
		return cure
	}
	panic(fmt.Sprintf("no words for %q", f.Misread))
}

var depthCures = map[finding.Misread]string{
	finding.DepthsMillimetresAsInches: `they look like millimetres taken as inches. Name their column depth_mm, or write unit = "mm" where every bare length of the job is in mm`,
	finding.DepthsInches:              `they look like inches. Name their column depth_in, or write unit = "in" where every bare length of the job is in inches`,
	finding.DepthsThou:                "they look like thousandths of an inch. Write 0.384 in for 384",
	finding.DepthsPointLost:           "a decimal point seems lost. Write each divided by 10",
	finding.DepthsCentimetres:         "they look like centimetres. Write each times 10, in mm",
	finding.DepthsHundredths:          "they look like hundredths of a millimetre. Write 9.76 for 976",
	finding.DepthsThousandths:         "they look like thousandths. Write 0.384 for 384",
	finding.DepthsMetres:              "they look like metres. Write each in mm",
}
