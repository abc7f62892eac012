package interview

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"evendrop/tdc/evidence"
)

// means is what reads a piston, by the words that people have for it; "" is a word that
// says nothing here.
var means = map[string]string{
	"dial": "dial", "d": "dial", "clock": "dial", "indicator": "dial", "dti": "dial",
	"rod": "rod", "r": "rod", "calliper": "rod", "caliper": "rod", "rule": "rod", "ruler": "rod", "vernier": "rod",
	"borescope": "borescope", "b": "borescope", "endoscope": "borescope", "scope": "borescope", "camera": "borescope",
	"stop": "stop", "stops": "stop", "s": "stop", "dwell": "dwell",
	"gauge": "", "depth": "", "positive": "", "piston": "", "and": "", "a": "", "the": "", "with": "", "test": "",
}

var apart = regexp.MustCompile(`[\s,;/&+]+`)

// takeMeans reads one or several of them.
func takeMeans(f Facts, answer string) (Facts, string, error) {
	if answer == "" {
		answer = "dial"
	}
	named := map[string]bool{}
	for _, w := range apart.Split(strings.ToLower(answer), -1) {
		kind, ok := means[w]
		if !ok {
			return f, "", fmt.Errorf("%s is none of them: type dial, rod, borescope, stop or dwell, or several, as in dial and stop", quoted(w))
		}
		named[kind] = true
	}
	if delete(named, ""); len(named) == 0 {
		return f, "", errors.New("which one: type dial, rod, borescope, stop or dwell, or several, as in dial and stop")
	}
	f.Gauge, f.Beside = "", Beside{Stop: named["stop"], Dwell: named["dwell"]}
	says := ""
	for _, kind := range []evidence.GaugeKind{evidence.Dial, evidence.DepthRod, evidence.Borescope} { // the finest first
		switch {
		case !named[string(kind)]:
		case f.Gauge == "":
			f.Gauge = kind
		default:
			f.Beside.Views = true
			says = fmt.Sprintf("A job has one gauge for depths, the %s here. The other one goes in as equal views: two angles at which it shows the same, whatever that is.", f.Gauge)
		}
	}
	return f, says, nil
}

// takeDwell asks who looks through a borescope for dwell too.
func takeDwell(f Facts, answer string) (Facts, string, error) {
	dwell, err := yesOrNo(answer, true)
	f.Beside.Dwell = dwell
	return f, "", err
}

// takeCounts reads which way the gauge's number goes as the piston goes down.
func takeCounts(f Facts, answer string) (Facts, string, error) {
	if answer == "" {
		f.GaugeUp = false
		return f, "", nil
	}
	up, err := rose(answer)
	f.GaugeUp = !up
	return f, "", err
}
