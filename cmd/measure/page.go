package main

import (
	"fmt"
	"regexp"
	"strconv"

	"evendrop/cmd/internal/words"
)

// slower is what a page's times may be, on this machine and six times slower.
var slower = []struct {
	times                 string
	first                 float64 // s
	further, misfit, many float64 // ms
}{{"1", 1.5, 50, 50, 50}, {"6", 4, 100, 100, 250}}

// page is the bench as a page, driven in a Chromium.
func page(_ scratch, tell say) error {
	text, err := goTest("./cmd/benchpage", "TestTimes$|TestPage$|TestKilledWhenKept$")
	if err != nil {
		return err
	}
	if bytes := found(text, `page ([\d.]+) MB`); bytes != nil {
		tell(figure{what: "the page, MB", aim: atMost(3), value: bytes[0], shown: fmt.Sprintf("%.2f MB", bytes[0])})
	}
	for _, slow := range slower {
		x := found(text, slow.times+` times slower: the core answers ([\d.]+) s .*?reading ([\d.]+) ms \(least ([\d.]+), the first ([\d.]+)\), one that does not fit ([\d.]+) \(([\d.]+)\), one after 200 ([\d.]+) \(([\d.]+)\); memory ([\d.]+) MB`)
		if x == nil {
			return fmt.Errorf("the page was not timed: is there a Chromium?\n%s", text)
		}
		add := func(what string, most, value float64, shown string) {
			tell(figure{what: "the page at " + slow.times + "x: " + what, aim: atMost(most), value: value, shown: shown})
		}
		pair := func(i int) string { return words.Plain(x[i]) + " ms (the least " + words.Plain(x[i+1]) + ")" }
		add("first answer, s", slow.first, x[0], words.Plain(x[0])+" s")
		add("a further reading, ms", slow.further, x[1], pair(1)+", the first "+words.Plain(x[3]))
		add("one that does not fit, ms", slow.misfit, x[4], pair(4))
		add("one after 200, ms", slow.many, x[6], pair(6))
		add("memory of the core, MB", 20, x[8], words.Plain(x[8])+" MB")
	}
	if kills := found(text, `killed (\d+) times right after kept, nothing lost`); kills != nil {
		tell(figure{what: "kills right after kept, nothing lost", aim: atLeast(20), value: kills[0], shown: fmt.Sprint(kills[0])})
	}
	return nil
}

// found is the numbers that a pattern finds in a text; nil without any.
func found(text, pattern string) (list []float64) {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	for i := range m {
		if i > 0 {
			x, _ := strconv.ParseFloat(m[i], 64)
			list = append(list, x)
		}
	}
	return list
}
