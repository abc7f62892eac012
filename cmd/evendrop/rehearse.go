package main

import (
	"io"
	"math"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/practice"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

const rehearseUsage = `evendrop rehearse DIR [--seed N] [...]
evendrop rehearse --check DIR --tdc DEG

Practice readings, invented, with errors that can be switched on: a job in DIR,
and the answer in a file of its own. With --check a learner's answer is marked.

  evendrop rehearse lesson --seed 7 --lash 0.05 --tilt 15 --typo 1 --turn both
  evendrop rehearse --check lesson --tdc 3.4

  --seed N                  the same seed gives the same readings; 1
  --turn forward|backward|both
  --readings N              in each direction; 12
  --lash MM                 clearance that the piston lags by
  --tilt DEG                the gauge leans
  --typo N                  readings mistyped by a whole millimetre
  --offset MM               the bore stands off the crank; the job keeps quiet
  --pin DEG                 a crank locking pin too, so much late
  --stroke MM, --rod MM     86 and 146
  --answer FILE             where the answer is kept: DIR/answer.toml
  --replace                 overwrite what is there

  --check DIR               mark an answer to the job in DIR
  --tdc DEG                 the learner's TDC, as the protractor shows it
  --as text|markdown|json|csv
`

// practiceFlags are the flags that make up a job.
type practiceFlags struct {
	*pflag.FlagSet
	seed            *uint64
	typos, readings *int
	turn            *string
	lengths         map[string]*string
	tilt, pin       *float64
}

func newPracticeFlags(flags *pflag.FlagSet) practiceFlags {
	f := practiceFlags{
		FlagSet: flags, seed: flags.Uint64("seed", 1, ""), typos: flags.Int("typo", 0, ""), readings: flags.Int("readings", 12, ""),
		turn: flags.String("turn", "forward", ""), tilt: flags.Float64("tilt", 0, ""), pin: flags.Float64("pin", 0, ""),
		lengths: map[string]*string{},
	}
	for name, length := range map[string]string{"stroke": "86", "rod": "146", "lash": "0", "offset": "0"} {
		f.lengths[name] = flags.String(name, length, "")
	}
	return f
}

func runRehearse(args []string, stdout io.Writer) error {
	flags := flagSet("rehearse")
	check := flags.String("check", "", "")
	given := flags.String("tdc", "", "")
	as := flags.String("as", "text", "")
	answer := flags.String("answer", "", "")
	replace := flags.Bool("replace", false, "")
	practised := newPracticeFlags(flags)
	rest, err := parse(flags, args, rehearseUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	if *check != "" || *given != "" {
		return checkAnswer(stdout, *check, *given, *answer, *as, rest)
	}
	if len(rest) != 1 {
		return misuse("rehearse takes one folder: type for example evendrop rehearse lesson --seed 7")
	}
	if *as != "text" {
		return misuse("--as goes with --check DIR")
	}
	plan, err := practised.plan()
	if err != nil {
		return err
	}
	made, err := plan.Make()
	if err != nil {
		return misuse("rehearse: %v", err)
	}
	files := rehearse.Practice{Folder: rest[0], AnswerFile: *answer, Job: made}
	return writePractice(stdout, files, *replace)
}

// plan is what the flags ask for.
func (f practiceFlags) plan() (practice.Plan, error) {
	if *f.seed > math.MaxInt64 {
		return practice.Plan{}, misuse("--seed %d: expected a whole number up to %d", *f.seed, int64(math.MaxInt64))
	}
	p := practice.Plan{Seed: *f.seed, Typos: *f.typos, Readings: *f.readings, Tilt: geometry.Angle(*f.tilt) * geometry.Degree}
	for name, into := range map[string]*geometry.Length{"stroke": &p.Stroke, "rod": &p.Rod, "lash": &p.Lash, "offset": &p.Offset} {
		var err error
		if *into, err = measure.ParseLength(*f.lengths[name], "mm"); err != nil {
			return p, misuse("--%s %s: expected a length such as 0.05", name, *f.lengths[name])
		}
	}
	if f.Changed("pin") {
		if !(*f.pin > -90 && *f.pin < 90) {
			return p, misuse("--pin %v: expected crank degrees between -90 and 90, late positive", *f.pin)
		}
		late := geometry.Angle(*f.pin) * geometry.Degree
		p.Pin = &late
	}
	switch *f.turn {
	case "forward":
		p.Turns = []evidence.TurnDirection{evidence.Forward}
	case "backward":
		p.Turns = []evidence.TurnDirection{evidence.Backward}
	case "both":
		p.Turns = []evidence.TurnDirection{evidence.Forward, evidence.Backward}
	default:
		return p, misuse("--turn %s: expected forward, backward or both", *f.turn)
	}
	return p, nil
}
