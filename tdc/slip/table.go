package slip

import "math"

// What is taken for granted before any reading, and what is done about it. The figures
// are those with which simulated jobs were told best: see DEVELOPERS.md, How far to
// trust it.

// chances are the probabilities, before any reading, of what may have happened in a
// session; that nothing did has what moves leave of 1, and the engine's own state has
// its chances beside that.
type chances struct {
	atTurn        float64 // the protractor moved where the crank was turned back; as much for the gauge's zero
	elsewhere     float64 // and in any other place, which share it
	oneTurn       float64 // the turn of one run was written wrongly, which share it
	everyTurn     float64 // that of every run
	wornElsewhere float64 // worn bearings, and a move in any other place
	wornMoved     float64 // worn bearings, and the protractor moved where the crank was turned back; as much for the gauge's zero
	worn, wide    float64 // worn bearings; those, and everything else far from what was stated
}

// Turning back is when hands are on the pointer and the gauge; a turn is written
// wrongly less often than a part is knocked; worn engines are common on a bench.
var (
	bothWays = chances{atTurn: 0.09, elsewhere: 0.048, oneTurn: 0.0168, everyTurn: 0.0072, wornMoved: 0.05, wornElsewhere: 0.03, worn: 0.15, wide: 0.05}
	oneWay   = chances{elsewhere: 0.06, everyTurn: 0.03, worn: 0.15, wide: 0.05}
)

// How far a part moves when it does: half of all moves are less (Cauchy's law, which
// leaves room for far greater ones).
const (
	angleScale = 0.5 * math.Pi / 180
	depthScale = 0.1 // mm
)

// Worn bearings leave lash of this standard uncertainty, mm; a wheel that nobody centred
// may stand as far off as this of its radius; and a stroke or rod typed wrong, or a gauge
// aslant, makes the piston's travel wrong by as much as this.
const (
	wornLash  = 0.25
	leastLash = -0.05 // mm, that chance may make of none; less is a turn written wrongly
	wideWheel = 0.0125
	wideScale = 0.3
)

// wornStarts is where the search for a worn engine's lash starts, mm: it has more than
// one end. The first is where the adjustment ended.
var wornStarts = [...]float64{0, 0.22, 0.45}

const (
	// fewest is the least number of readings of which anything is told: fewer leave
	// nothing over to tell a move from chance.
	fewest = 8
	// fewestBefore and fewestAfter are the readings that a move must have on either side:
	// a step before the last one is a reading that does not fit.
	fewestBefore, fewestAfter = 2, 2
	// mostRuns is as many runs as have their turn doubted one by one; more are no sweeps.
	mostRuns = 8
	// wornGain is what worn bearings must gain of chi-square for a move beside them to be
	// tried elsewhere than where the crank was turned back.
	wornGain = 2
	// tryAll is as many places as are all refitted; of more, those that gain most to
	// first order are, so many of a part on each screen.
	tryAll, mostTried = 40, 6
)

const (
	// alarm is the probability of a move above which it is a finding.
	alarm = 0.7
	// negligible is the weight below which a hypothesis leaves TDC's interval alone.
	negligible = 1e-5
	// nearlyEven is the share of the interval's half-width by which its middle may lie
	// beside the curve's TDC and leave it there: a person sees one number, not two.
	nearlyEven = 0.03
	// likelier is how many times as probable as nothing a worn engine must be to be
	// adjusted as one.
	likelier = 10
	// open is the share of all that may have moved from which what is not the most probable is
	// told beside it; near is how many readings off a move is looked for at the same place.
	open, near = 0.2, 2
	// wornBeyond is the probability above which worn bearings are a finding, nothing
	// having moved.
	wornBeyond = 0.95
)

// scanLimit is what the best move must gain of chi-square over nothing having moved to
// be a finding wherever it is, whatever its chance was beforehand.
func scanLimit(readings int) float64 { return 3 + 2*math.Log(2*float64(readings-3)) }

// The loss lets go of readings as far off as instruments that err as stated make it.
const asStated = 1
