package main

import (
	"evendrop/cmd/internal/answer/planning"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

func runPlan(args []string, c console) error {
	set := flags.New("plan", "evendrop plan [JOB]",
		aJobHere+`
Where to read, how many, which way to turn, and the uncertainty that it will
reach, for the job's engine and instruments. Of its cam lobes: which lifts to
read, where to expect them, and which are left. The job needs no readings yet.`)
	var target geometry.Angle
	set.Angle(&target, "target", "standard uncertainty of TDC to reach, with the fewest readings; about half of what stands after ±")
	readings := flags.Whole(set, "readings", plan.Usual, 1, plan.Most, "12", "plan N readings: 12 unless stated")
	ground := groundFlags(set)
	as := set.As()
	rest, err := c.parse(set, args)
	switch {
	case err != nil:
		return err
	case set.Given("target") && set.Given("readings"):
		return misuse("--target finds how many readings it takes: leave --readings out, or --target")
	}
	q := planning.Question{Readings: *readings}
	if set.Given("target") {
		if q.Target = &target; target == 0 {
			return misuse("--target 0: expected degrees above zero, such as 0.2")
		}
	}
	name, err := c.jobNamed("plan", rest)
	if err != nil {
		return err
	}
	j, err := job.OpenBlank(name)
	if err != nil {
		return err
	}
	if q.Ground, err = ground(j); err != nil {
		return err
	}
	answer, err := planning.Of(j, q)
	if err != nil {
		return err
	}
	return c.write(form.Of(answer), *as)
}
