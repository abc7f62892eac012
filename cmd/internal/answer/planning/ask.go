package planning

import (
	"fmt"

	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// Question is how a job is to be planned for.
type Question struct {
	Ground   plan.Ground
	Readings int             // how many, where no target says it
	Target   *geometry.Angle // standard uncertainty of TDC to reach; nil: none
}

// Ground is where a job's gauge can read; deepest 0 is as far as its kind usually
// reaches.
func Ground(j job.Job, oneWay bool, deepest geometry.Length) plan.Ground {
	if deepest == 0 {
		deepest = plan.Deepest(j.Setup.Gauge.Kind)
	}
	return plan.Ground{Deepest: deepest, OneWay: oneWay}
}

// Of is the plan that a question asks for.
func Of(j job.Job, q Question) (Plan, error) {
	answer := Plan{Job: j, Ground: q.Ground, Target: q.Target}
	var err error
	if q.Target != nil {
		answer.Plan, answer.Reached, err = plan.Reach(j.Setup, q.Ground, *q.Target)
	} else {
		if least := q.Ground.Fewest(); q.Readings < least || q.Readings%2 != 0 {
			return answer, usage.Errorf("--readings %d: expected an even number from %d up, for pairs of equal drop each way", q.Readings, least)
		}
		answer.Plan, err = plan.Best(j.Setup, q.Ground, q.Readings)
	}
	if err != nil {
		return answer, fmt.Errorf("%s: %s", j.File, words.NewBench(j.Setup, j.Unit).Planning(err))
	}
	answer.Other = otherWay(j, answer)
	return answer, nil
}

// otherWay is what as many readings would reach turned one way, of a plan that
// turns back; nil where they are too many for one way.
func otherWay(j job.Job, answer Plan) *adjust.Foreseen {
	if !answer.Plan.TurnsBack() {
		return nil
	}
	p, err := plan.Best(j.Setup, plan.Ground{Deepest: answer.Ground.Deepest, OneWay: true}, len(answer.Plan.Points))
	if err != nil {
		return nil
	}
	return &p.Foreseen
}
