package plan

import (
	"math"

	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// closings is how many early places are read again at the end of a session: what moved
// at the last readings shows only in readings after it, and two tell it from one that
// was misread.
const closings = 2

// Closing is the first places of a plan, to be read again at its end.
func (p Plan) Closing() []Point { return p.Points[:closings] }

// Closing is the early readings to take again at the end of a session, as the protractor
// shows their places then; none once the last readings were taken so.
func Closing(result tdc.Result) (again []evidence.Reading) {
	var fine []evidence.Reading
	for i, j := range result.Readings {
		if !j.Suspect {
			j.Angle = result.Since(i)
			fine = append(fine, j.Reading)
		}
	}
	if len(fine) < 2*closings+1 {
		return nil
	}
	for _, last := range fine[len(fine)-closings:] {
		if !readNear(last, fine[:len(fine)/2]) {
			return fine[:closings]
		}
	}
	return nil
}

// readNear tells whether a reading was taken where some earlier one was.
func readNear(r evidence.Reading, early []evidence.Reading) bool {
	for _, e := range early {
		if e.Turn == r.Turn && math.Abs(float64((e.Angle-r.Angle).Signed())) < float64(apart) {
			return true
		}
	}
	return false
}
