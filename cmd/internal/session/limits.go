package session

import (
	"errors"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/toml"
)

var (
	errCrowns = errors.New("crowns goes with how far one may stand from the others, or alone: type for example crowns 0.1 mm. One set-up of the gauge has to read every cylinder")
	errThrows = errors.New("throws goes with how many crank degrees one may be out of its place: type for example throws 0.5")
)

// limitKept is what cylinders are compared by, as it was typed; a deed.
type limitKept struct {
	session       *Session
	what          string
	before, after limits
}

// limits are what cylinders are compared by, as a job file has it; "" is not said.
type limits struct{ sameZero, crown, throw toml.Literal }

func (d *limitKept) words() string { return d.what }
func (d *limitKept) undo() error   { return d.session.limit(d.before) }
func (d *limitKept) redo() error   { return d.session.limit(d.after) }

// limit writes what cylinders are compared by into the job file, where it is another.
func (s *Session) limit(to limits) error {
	now := s.limits()
	if to.sameZero != now.sameZero {
		if err := s.amend(amend.Table("gauge", amend.Key{Name: "same_zero", Value: to.sameZero})); err != nil {
			return err
		}
	}
	var keys []amend.Key
	if to.crown != now.crown {
		keys = append(keys, amend.Key{Name: "crown_limit", Value: to.crown})
	}
	if to.throw != now.throw {
		keys = append(keys, amend.Key{Name: "throw_limit", Value: to.throw})
	}
	return s.amend(amend.Table("engine", keys...))
}

// limits are those that the job has.
func (s *Session) limits() (l limits) {
	b, e := s.state.Bench(), s.Job.Setup.Engine
	if s.Job.Setup.Gauge.SameZero {
		l.sameZero = "true"
	}
	if e.CrownLimit > 0 {
		l.crown = toml.Number(b.In(e.CrownLimit))
	}
	if e.ThrowLimit > 0 {
		l.throw = toml.Number(e.ThrowLimit.Degrees())
	}
	return l
}

// crowns compares the cylinders' crowns with one another: one set-up of the gauge reads them
// all. A length is how far one may stand from the others.
func (s *Session) crowns(rest string) (do func() error, err error) {
	to, what := s.limits(), "the crowns are compared with one another"
	to.sameZero = "true"
	if limit := strings.TrimSpace(strings.TrimPrefix(rest, "limit ")); limit != "" {
		length, err := measure.ParseLength(limit, s.Job.Unit)
		if err != nil || length <= 0 {
			return nil, errCrowns
		}
		to.crown = typed.Literal(limit)
		what += ", and one may stand " + s.state.Bench().Stated(length) + " off"
	}
	return s.limited(to, what, " Keep the gauge's zero from cylinder to cylinder, and read each piston once at its very top as well. That tells best how high it stands."), nil
}

// throws takes how far a throw may be out of its place.
func (s *Session) throws(rest string) (do func() error, err error) {
	degrees, ok := typed.Degrees(strings.TrimPrefix(rest, "limit "), 90)
	if !ok {
		return nil, errThrows
	}
	to := s.limits()
	to.throw = degrees
	return s.limited(to, "a throw may be "+string(degrees)+" deg out of its place", ""), nil
}

// limited writes limits, and says what they come to.
func (s *Session) limited(to limits, what, besides string) func() error {
	return func() error {
		d := &limitKept{session: s, what: what, before: s.limits(), after: to}
		if err := s.keep(d, what+"."+besides); err != nil {
			return err
		}
		s.judged()
		return nil
	}
}
