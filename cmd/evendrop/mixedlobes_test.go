package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/tdc/job/jobtest"
)

// lobeTold is what an answer of find says in JSON of a cam lobe.
type lobeTold struct {
	Name              string
	Opens             *float64 `json:"opens_deg"`
	OpensUncertainty  *float64 `json:"opens_standard_uncertainty_deg"`
	Closes            *float64 `json:"closes_deg"`
	ClosesUncertainty *float64 `json:"closes_standard_uncertainty_deg"`
	Centre            *float64 `json:"centre_deg"`
	CentreUncertainty *float64 `json:"centre_standard_uncertainty_deg"`
	Shift             *float64 `json:"shift_deg"`
	ShiftUncertainty  *float64 `json:"shift_standard_uncertainty_deg"`
	CannotTell        *string  `json:"cannot_tell"`
	Set               int
	Readings          []any
	Warnings          []string
	Findings          []findingTold
}

// farOut is how many standard uncertainties no sound lobe lies from its truth: of ten
// thousand with normal errors, none does.
const farOut = 4.5

// spoiltJob is what makes TDC itself wrong, which the lobes count from, and on purpose.
var spoiltJob = []string{"blunder", "pair mistyped"}

// lobesNearTruth finds a lobe that is calmly told wrong: its events, its centre or its
// shift far from the truth, and nothing said.
func (s *benched) lobesNearTruth(t answerTold) {
	if len(t.Lobes) == 0 && len(s.Lobes) > 0 {
		s.seen.add("jobs whose lobes are not measured")
		return
	}
	if len(t.Lobes) != len(s.Lobes) {
		s.find("%d lobes of %d are in the answer", len(t.Lobes), len(s.Lobes))
		return
	}
	for i, l := range t.Lobes {
		truth := s.Lobes[i]
		if l.Name != truth.Name || l.Set != truth.Set || len(l.Readings) != truth.Rows {
			s.find("lobe %q of %d readings is told as %q of %d", truth.Name, truth.Rows, l.Name, len(l.Readings))
		}
		if (l.Opens == nil) != (l.CannotTell != nil) {
			s.find("lobe %q has no events and no reason, or both", l.Name)
		}
		s.lobeNearTruth(l, truth)
	}
}

func (s *benched) lobeNearTruth(l lobeTold, truth jobtest.Lobe) {
	kind := "sound lobe"
	if truth.Wrong != "" {
		kind = "lobe with " + truth.Wrong
	}
	if slices.ContainsFunc(spoiltJob, s.Has) {
		kind = "lobe of a spoilt job"
	}
	s.seen.add(kind)
	if l.CannotTell != nil {
		s.seen.add(kind + ": cannot tell")
		if kind == "sound lobe" {
			s.find("lobe %q is sound, and %s", l.Name, *l.CannotTell)
		}
		return
	}
	said := slices.ContainsFunc(l.Findings, func(f findingTold) bool { return f.Kind != "lobe leans" })
	if said {
		s.seen.add(kind + ": warned of")
	}
	for _, f := range l.Findings {
		s.seen.add(kind + ": " + f.Kind)
	}
	far := s.farFrom(kind, "opens", l.Opens, l.OpensUncertainty, truth.Opens)
	far = append(far, s.farFrom(kind, "closes", l.Closes, l.ClosesUncertainty, truth.Closes)...)
	far = append(far, s.farFrom(kind, "centre", l.Centre, l.CentreUncertainty, (truth.Opens+truth.Closes)/2)...)
	if (l.Shift == nil) != math.IsNaN(truth.Shift) {
		s.find("lobe %q has a shift, or no card", l.Name)
	} else if l.Shift != nil {
		far = append(far, s.farFrom(kind, "shift", l.Shift, l.ShiftUncertainty, truth.Shift)...)
	}
	if len(far) > 0 {
		s.seen.add(kind + ": far from the truth")
		if !said {
			s.seen.add(kind + ": calmly wrong")
			// opening, closing and centre are those of the lift that was said: only a card of events tells that it is another
			unseen := kind == "lobe with wrong lift" && !slices.ContainsFunc(far, func(text string) bool { return strings.HasPrefix(text, "shift") })
			if kind != "lobe of a spoilt job" && !unseen {
				s.find("%s %q is calmly wrong: %s", kind, l.Name, strings.Join(far, ", "))
			}
		}
	}
}

// farFrom counts what holds the truth by its 95 % interval, and is what lies far from it.
func (s *benched) farFrom(kind, what string, at, uncertainty *float64, truth float64) []string {
	off := math.Abs(math.Remainder(*at-truth, 360))
	s.seen.add(kind + ": " + what)
	if off <= 2*(*uncertainty) {
		s.seen.add(kind + ": " + what + " within 2 u")
	}
	if off <= farOut*(*uncertainty) {
		return nil
	}
	return []string{fmt.Sprintf("%s %.2f ± %.2f and truly %.2f", what, *at, *uncertainty, math.Remainder(truth, 360))}
}
