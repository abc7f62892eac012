package main

import (
	"fmt"
	"io"

	"evendrop/cmd/internal/answer/planning"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

const planUsage = `evendrop plan JOB

Where to read, how many, which way to turn, and the uncertainty that it will
reach, for the job's engine and instruments. The readings need not be there yet.

  --target DEG              standard uncertainty of TDC to reach, with the
                            fewest readings; about half of what stands after ±
  --readings N              plan N readings: 12 unless stated
  --one-way                 never turn the crank back
  --deepest MM              as far down as the gauge reaches: 8 for a dial
                            gauge, 25 for others
  --as text|markdown|json|csv
`

// usualReadings is how many are planned when nobody says.
const usualReadings = 12

func runPlan(args []string, stdout io.Writer) error {
	flags := flagSet("plan")
	as := flags.String("as", "text", "")
	target := flags.String("target", "", "")
	readings := flags.Int("readings", usualReadings, "")
	oneWay := flags.Bool("one-way", false, "")
	deepest := flags.String("deepest", "", "")
	rest, err := parse(flags, args, planUsage, stdout)
	switch {
	case err != nil:
		return err
	case len(rest) != 1:
		return misuse("plan takes one job file: type for example evendrop plan job.toml, or evendrop begin DIR to make one")
	case *target != "" && flags.Changed("readings"):
		return misuse("--target finds how many readings it takes: leave --readings out, or --target")
	case *readings > plan.Most:
		return misuse("--readings %d: expected up to %d", *readings, plan.Most)
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	j, err := job.OpenBlank(rest[0])
	if err != nil {
		return err
	}
	answer, err := planned(j, *target, *readings, *oneWay, *deepest)
	if err != nil {
		return err
	}
	return write(stdout, answer, *as)
}

// planned is the plan that the command line asks for.
func planned(j job.Job, target string, readings int, oneWay bool, deepest string) (planning.Plan, error) {
	answer := planning.Plan{Job: j}
	var err error
	if answer.Ground, err = groundOf(j, oneWay, deepest); err != nil {
		return answer, err
	}
	if target == "" {
		if least := answer.Ground.Fewest(); readings < least || readings%2 != 0 {
			return answer, misuse("--readings %d: expected an even number from %d up, for pairs of equal drop each way", readings, least)
		}
		answer.Plan, err = plan.Best(j.Setup, answer.Ground, readings)
	} else {
		var angle geometry.Angle
		if err := angleFlag("--target", target, &angle); err != nil || angle <= 0 {
			return answer, misuse("--target %s: expected degrees such as 0.2", target)
		}
		answer.Target = &angle
		answer.Plan, answer.Reached, err = plan.Reach(j.Setup, answer.Ground, angle)
	}
	if err != nil {
		return answer, fmt.Errorf("%s: %s", j.File, words.NewBench(j.Setup, j.Unit).Planning(err))
	}
	answer.Other, err = otherWay(j, answer)
	return answer, err
}

// otherWay is what as many readings would reach turned one way, of a plan that
// turns back.
func otherWay(j job.Job, answer planning.Plan) (*adjust.Foreseen, error) {
	if !answer.Plan.TurnsBack() {
		return nil, nil
	}
	p, err := plan.Best(j.Setup, plan.Ground{Deepest: answer.Ground.Deepest, OneWay: true}, len(answer.Plan.Points))
	if err != nil { // too many for one way
		return nil, nil
	}
	return &p.Foreseen, nil
}
