package main

import (
	"errors"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/practice/cams"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/lobe"
)

// bothLobes is --lobe of a pair.
const bothLobes = "both"

// camFlags is the flags that make up practice lobes.
type camFlags struct {
	valve string // "": none
	cams.Wanted
}

func newCamFlags(set *flags.Set) *camFlags {
	f := new(camFlags)
	mm, valves := "mm", []string{string(lobe.Inlet), string(lobe.Exhaust), bothLobes}
	flags.Var(set, &f.valve, "lobe", strings.Join(valves, "|"), "a cam lobe too; the seed says what is wrong with its cam", oneOf[string](valves...))
	flags.Var(set, &f.Late, "cam-late", "DEG", "it moved by so much, crank degrees", func(text string) (*geometry.Angle, error) {
		degrees, err := flags.ParseNumber(text, func(x float64) bool { return x >= -45 && x <= 45 }, "crank degrees from -45 to 45, late positive")
		late := geometry.Angle(degrees) * geometry.Degree
		return &late, err
	})
	flags.Var(set, &f.Lost, "lift-lost", "MM", "so much of its lift is missing, as by lash", func(text string) (*geometry.Length, error) {
		lost, err := measure.ParseLength(text, mm)
		if err != nil {
			err = errors.New("expected a length such as 0.2")
		}
		return &lost, err
	})
	return f
}

// oneOf reads one of some texts.
func oneOf[S ~string](choices ...S) func(text string) (S, error) {
	return func(text string) (S, error) {
		if !slices.Contains(choices, S(text)) {
			var all []string
			for _, c := range choices {
				all = append(all, string(c))
			}
			return "", errors.New("expected " + words.Or(all))
		}
		return S(text), nil
	}
}

// wanted is the lobes that are asked for.
func (f camFlags) wanted() cams.Wanted {
	w := f.Wanted
	switch f.valve {
	case "":
	case bothLobes:
		w.Valves = []lobe.Valve{lobe.Inlet, lobe.Exhaust}
	default:
		w.Valves = []lobe.Valve{lobe.Valve(f.valve)}
	}
	return w
}

// meant is the lobe that an answer is about; "" where nothing says which.
func (f camFlags) meant() string {
	if f.valve == bothLobes {
		return ""
	}
	return f.valve
}

// lobeAnswerFlags adds the flags of what a learner says of a lobe.
func lobeAnswerFlags(set *flags.Set) *rehearse.LobeAnswer {
	given := new(rehearse.LobeAnswer)
	for _, of := range []struct {
		what cams.Quantity
		help string
	}{
		{cams.Late, "the lobe's cam is late by so much, crank degrees"},
		{cams.Opens, `the lobe opens there, such as "12 BTDC"`},
		{cams.Closes, `and closes there, such as "48 ABDC"`},
		{cams.Centre, `its centre, such as "108 ATDC"`},
	} {
		flags.List(set, &given.Angles, string(of.what), "DEG", of.help, func(text string) ([]rehearse.LobeAngle, error) {
			angle, err := crankAngle(text)
			return []rehearse.LobeAngle{{What: of.what, Angle: angle}}, err
		})
	}
	flags.Var(set, &given.Fault, "fault", "nothing|moved|lift|both", "what is wrong with the cam", oneOf(cams.Nothing, cams.Moved, cams.Lift, cams.Both))
	return given
}

// crankAngle reads crank degrees after TDC, late positive, or with their side.
func crankAngle(text string) (geometry.Angle, error) {
	w, err := measure.ParseAngle(text)
	angle, ok := measure.OnCrank(w)
	if err != nil || !ok {
		return 0, errors.New(`expected crank degrees such as 3.4 or "12 BTDC"`)
	}
	return angle, nil
}
