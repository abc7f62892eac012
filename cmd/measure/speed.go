package main

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
)

// speed is how long answers of the program take.
func speed(s scratch, tell say) error {
	for _, of := range []func(scratch, say) error{processes, answers, capture, beside} {
		if err := of(s, tell); err != nil {
			return err
		}
	}
	return nil
}

// core is how long the core's parts take, by their benchmarks.
func core(_ scratch, tell say) error {
	drop, err := goBench("./geometry", "Drop", 50, 10_000)
	if err != nil {
		return err
	}
	tell(figure{what: "one drop of the piston, with its slope", shown: digits(drop["Drop"].ns) + " ns"})
	trials, err := goBench("./tdc", "Trials", 50, 100)
	if err != nil {
		return err
	}
	refit := trials["Trials"]
	tell(figure{what: "a refit of 24 readings, one core", shown: digits(refit.ns/1e3) + " us"})
	tell(figure{what: "allocations of a refit", aim: atMost(0), value: refit.allocs, shown: fmt.Sprint(refit.allocs)})
	for _, of := range []struct {
		readings string
		rounds   int
	}{{"24", 60}, {"200", 30}, {"3000", 3}} {
		found, err := goBench("./tdc", "Find/"+of.readings+"$", of.rounds, 1)
		if err != nil {
			return err
		}
		tell(figure{what: "tdc.Find, " + of.readings + " readings, one core; that do not fit",
			shown: digits(found["Find/"+of.readings+"/fit"].ms()) + " ms; " + digits(found["Find/"+of.readings+"/none"].ms()) + " ms"})
	}
	joints, err := goBench("./tdc/mark/joint", "Twelve", 50, 5)
	tell(figure{what: "explanations of 12 joints and 3 slips", shown: digits(joints["TwelveJointsThreeSlips"].ms()) + " ms"})
	return err
}

// processes is the program from its start to its end.
func processes(s scratch, tell say) error {
	jobs := map[string]sized{"24": ordinary(), "24-none": ordinary(), "3000": ordinary()}
	for name, size := range jobs {
		size.marks = 4
		if name == "24-none" {
			size.off = 1
		}
		if name == "3000" {
			size.readings = 3000
		}
		if _, err := s.write(name, size); err != nil {
			return err
		}
	}
	page := s.path("page.html")
	for _, p := range []struct {
		what string
		aim  aim
		runs int
		args []string
	}{
		{"the process alone, start to end (--version)", aim{}, 40, []string{"--version"}},
		{"find, 24 readings and 4 marks", atMost(50), 40, []string{"find", s.path("24")}},
		{"find, 24 readings that do not fit", atMost(50), 20, []string{"find", s.path("24-none")}},
		{"find, 3,000 readings", aim{}, 5, []string{"find", s.path("3000")}},
		{"find --page, 24 readings", aim{}, 20, []string{"find", s.path("24"), "--page", page, "--replace"}},
		{"plan, 24 readings", aim{}, 10, []string{"plan", s.path("24")}},
		{"100,000 trials, two cores, start to end", atMost(1000), 5, []string{"find", s.path("24"), "--trials", "100000"}},
	} {
		t, err := s.time(p.runs, p.args...)
		if err != nil {
			return err
		}
		tell(figure{what: p.what, aim: p.aim, value: t.ms(), shown: t.String()})
	}
	return nil
}

// mostAnswer is how long an answer at the bench may take, ms: it was asked for.
const mostAnswer = 20

// answers is jot's, a line typed after others.
func answers(_ scratch, tell say) error {
	jot, err := goBench("./cmd/evendrop", "Answer", 30, 1)
	for _, n := range []string{"24", "200"} {
		for _, kind := range []struct{ name, words string }{{"fit", " readings"}, {"none", " readings that do not fit"}} {
			b := jot["Answer/"+n+"/"+kind.name]
			tell(figure{what: "jot's answer, " + n + kind.words + ", on the disk", aim: atMost(mostAnswer), value: b.ms(), shown: digits(b.ms()) + " ms"})
		}
	}
	return err
}

// capture is a crank's wheel seen for a minute, 100,000 samples a second.
func capture(s scratch, tell say) error {
	const size = 100e6
	file := s.path("capture.csv")
	if err := writeCapture(file, size); err != nil {
		return err
	}
	defer os.Remove(file)
	t, err := s.time(2, "edges", file, "--time", "1", "--crank", "2", "--wheel", "60-2")
	tell(figure{what: "edges of a capture of 100 MB", shown: t.String()})
	return err
}

// writeCapture is a wheel of 60-2 that turns at 600 rpm, sampled until the file is so large.
func writeCapture(file string, size int) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	var b strings.Builder
	b.WriteString("Time,Crank\n(ms),(V)\n\n")
	for i := 0; b.Len() < size; i++ {
		const perTooth = 500.0 // samples: a tenth of a turn of 10,000 has six teeth
		tooth, level := int(float64(i)/perTooth*3)%60, 0
		if tooth < 58 && (i*3)%500 < 250 {
			level = 5
		}
		fmt.Fprintf(&b, "%d.%02d,%d\n", i/100, i%100, level)
	}
	if _, err := f.WriteString(b.String()); err != nil {
		return err
	}
	return f.Close()
}

// beside is SciPy's ODR at its best, where SciPy is.
func beside(_ scratch, tell say) error {
	f := figure{what: "the same refit in SciPy's ODR at its best"}
	cmd := exec.Command("python3", "speed.py")
	cmd.Dir = "testdata/scipy"
	out, err := cmd.Output()
	if err != nil {
		out = []byte("not measured: python3 has no scipy here")
	}
	f.shown = strings.TrimSpace(string(out))
	tell(f)
	return nil
}
