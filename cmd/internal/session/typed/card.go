package typed

import (
	"errors"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/measure"
)

// Card is the lobe that a line speaks of, and what its card says, as a job file has it:
// opening and closing or the centre, then the checking lift and the limit either way. An
// error says how a card is typed.
func Card(rest string, j job.Job, p evidence.Protractor) (c Cam, keys []amend.Key, err error) {
	usage := errors.New("card goes with a lobe and its card: type for example " + Examples["card"])
	c, says, err := OfCam("card", rest, j.Lobes)
	if err != nil {
		return c, nil, usage
	}
	says, limit, limited := strings.Cut(says, " limit ")
	says, lift, at := strings.Cut(says, " at ")
	if at {
		if _, err := measure.ParseLength(lift, j.Unit); err != nil {
			return c, nil, usage
		}
		keys = append(keys, amend.Key{Name: "lift", Value: Literal(strings.TrimSpace(lift))})
	}
	if a, b, err := TwoAngles(says, p); err == nil {
		keys = append(keys, amend.Key{Name: "opens", Value: a.Literal}, amend.Key{Name: "closes", Value: b.Literal})
	} else if _, err := measure.ParseAngle(says); err == nil {
		keys = append(keys, amend.Key{Name: "centre", Value: Literal(strings.TrimSpace(says))})
	} else {
		return c, nil, usage
	}
	if limited {
		degrees, ok := Degrees(limit, 360)
		if !ok {
			return c, nil, usage
		}
		keys = append(keys, amend.Key{Name: "limit", Value: degrees})
	}
	return c, keys, nil
}
