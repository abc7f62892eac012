package main

import "fmt"

// stated is jobs in which everything that a job leaves open is drawn from what it states.
func stated() []suite {
	const bench = "./tdc/benchtest"
	list := []suite{
		{"./tdc", "TestHonesty$", []string{"-jobs", "500"}, 6, []ask{
			{what: "error of the readings' part over the least possible (Cramer-Rao)", column: 4, aim: atMost(1.03), unit: ratio},
			{what: "the same on average", column: 4, aim: atMost(1.03), mean: true, unit: ratio},
			{what: "by the readings alone, errors fresh: held, single fit", column: 0, aim: between(94, 96), unit: percent},
			{what: "the same on average", column: 0, aim: between(94, 96), mean: true, unit: percent},
		}},
		{bench, "TestStated$", []string{"-full", "-jobs", "40"}, 13, []ask{
			{what: "stated: TDC held, every protractor", rows: "^[^p]", column: 0, aim: atLeast(93), unit: percent},
			{what: "stated: TDC held, all together", rows: "^pooled", column: 0, aim: atLeast(93), unit: percent},
			{what: "stated: a mark 4 deg from TDC held", rows: "^[^p]", column: 7, aim: atLeast(93), unit: percent},
			{what: "stated: a mark 20 deg from TDC held", rows: "^[^p]", column: 9, aim: atLeast(93), unit: percent},
		}},
	}
	for _, w := range []struct {
		plan string
		most float64
	}{{"24 both .5/.25", 0.28}, {"12 both .5/.25", 0.31}, {"8 both .5/.25", 0.34}, {"24 both .1/.09", 0.11}} {
		s := &list[1]
		s.asks = append(s.asks, ask{what: "U, offset stated, " + w.plan, rows: "^" + w.plan, column: 1, aim: atMost(w.most), mean: true, unit: degrees})
	}
	return list
}

// unstated is jobs with lash, offset, tilt or scatter that they know nothing of.
func unstated() []suite {
	const bench = "./tdc/benchtest"
	s := suite{bench, "TestUnstated$", []string{"-full", "-jobs", "12"}, 8, []ask{
		{what: "not stated: TDC held, offsets to 8 mm", rows: "^pooled, offset [018]", column: 0, aim: atLeast(93), unit: percent},
		{what: "not stated: TDC held, offset 12 mm", rows: "^pooled, offset 12", column: 0, aim: atLeast(90), unit: percent},
	}}
	for _, w := range []struct {
		plan string
		most float64
	}{{"24 both .5/.25", 0.30}, {"12 both .5/.25", 0.33}, {"8 both .5/.25", 0.37}, {"24 both .1/.09", 0.12}} {
		// where the lash is as stated, as TestUnstated holds it
		s.asks = append(s.asks, ask{what: "U, offset not stated, " + w.plan, rows: fmt.Sprintf("^%s .*lash 0.05", w.plan), column: 2, aim: atMost(w.most), mean: true, unit: degrees})
	}
	return []suite{s, {bench, "TestTwiceTheScatter$", []string{"-jobs", "200"}, 8, []ask{
		{what: "twice the scatter: held by the readings alone", column: 3, aim: atLeast(93), unit: percent},
	}}}
}

// slips is jobs in which something slips, and in which nothing does.
func slips() []suite {
	const bench = "./tdc/benchtest"
	return []suite{
		{bench, "TestFalseAlarms$", []string{"-jobs", "40"}, 5, []ask{
			{what: "healthy jobs said to have slipped, all together", rows: "^pooled", column: 0, aim: atMost(1), unit: percent},
			{what: "healthy jobs said to have slipped, at any one point", rows: "^[^p]", column: 0, aim: atMost(2.5), unit: percent},
		}},
		{bench, "TestSlips$", []string{"-full", "-jobs", "60", "-only", " any,"}, 9, []ask{
			{what: "slips found, each against its own aim", column: 0, own: true, unit: percent},
			{what: "slips: TDC at the end held, each against its own aim", column: 2, own: true, unit: percent},
			{what: "1 deg at the turn-back found, 24 readings", rows: "^24 both .5/.25 any, 1.0 deg at the turn-back$", column: 0, aim: atLeast(98), unit: percent},
			{what: "1 deg at the turn-back found, 12 readings", rows: "^12 both .5/.25 any, 1.0 deg at the turn-back$", column: 0, aim: atLeast(94), unit: percent},
			{what: "1 deg at the turn-back found, 8 readings", rows: "^8 both .5/.25 any, 1.0 deg at the turn-back$", column: 0, aim: atLeast(70), unit: percent},
		}},
		{bench, "TestSlipsElsewhere$", []string{"-jobs", "60", "-only", "borescope.*5.0"}, 9, []ask{
			{what: "5 deg found with a borescope", column: 0, own: true, unit: percent},
		}},
	}
}

// joints is engines whose marks lie anywhere within their limits, with and without a slip.
func joints() []suite {
	return []suite{{"./tdc/mark/joint", "HealthyEngines|OneSlip$|TwoSlips$", []string{"-jobs", "1000"}, 0, []ask{
		{what: "a healthy engine accused", rows: `healthy +\d+ jobs: accused ([\d.]+) %`, aim: atMost(1), unit: percent},
		{what: "a wrong joint named alone, one slip of any size", rows: `: one slip .*a wrong joint alone ([\d.]+) %`, aim: atMost(1), unit: percent},
		{what: "two slips of 1.5 to 20 deg and more: the pair listed, of what could be", rows: `two slips to 20[^\n]*\n[^\n]*of the others truth listed ([\d.]+) %`, aim: atLeast(90), unit: percent},
		{what: "two slips: the pair listed, of all", rows: `two slips to 20 .*truth listed ([\d.]+) %`, aim: atLeast(90), unit: percent},
	}}}
}

// lobes is cams read as planned, and faults of them.
func lobes() []suite {
	var asks []ask
	for _, what := range []string{"opens", "closes", "centre", "duration", "shift"} {
		asks = append(asks, ask{what: "lobes: " + what + " held, all together", rows: `(?:jobs a point[^$]*)pooled, all .*?` + what + ` +([\d.]+)`, aim: between(93, 98), unit: percent})
	}
	return []suite{{"./tdc/lobe", "TestLobeCoverage$", []string{"-jobs", "120"}, 0, asks}, {"./tdc/lobe", "TestFaultsToldApart$", []string{"-jobs", "100"}, 0, []ask{
		{what: "a moved cam kept apart from lash or wear, 2 deg", rows: `moved 2 deg .*?([\d.]+)  aim`, aim: atLeast(98), unit: percent},
		{what: "lash or wear of 0.15 mm kept apart from a moved cam", rows: `(?:lash or wear|lash set|moved and lash) .*?([\d.]+)  aim`, aim: atLeast(98), unit: percent},
		{what: "a sound lobe found faulty in no more than 1 %", rows: `healthy.*?([\d.]+)  aim`, aim: atLeast(99), unit: percent},
	}}}
}
