package main

import (
	"fmt"
	"math"
	"strings"
)

// growth is how long find takes, of the processor, as a job grows in one way, less what the
// process alone takes, and the exponent over the last doubling and all before it.
func growth(s scratch, tell say) error {
	alone, err := s.time(20, "--version")
	if err != nil {
		return err
	}
	for _, g := range []struct {
		what  string
		sizes []int
		grown func(size *sized, n int)
	}{
		{"readings", []int{6, 24, 200, 1000, 3000}, func(size *sized, n int) { size.readings = n }},
		{"readings that do not fit", []int{6, 24, 200, 1000, 3000}, func(size *sized, n int) { size.readings, size.off = n, 1 }},
		{"marks", []int{1, 4, 15, 60}, func(size *sized, n int) { size.marks = n }},
		{"joints, a mark on each", []int{3, 10, 20, 40}, func(size *sized, n int) { size.joints, size.marks = n, n }},
		{"cylinders", []int{1, 4, 16}, func(size *sized, n int) { size.cylinders = n }},
		{"lobes", []int{1, 4, 16}, func(size *sized, n int) { size.lobes = n }},
	} {
		var shown []string
		var took []float64
		for _, n := range g.sizes {
			size := ordinary()
			g.grown(&size, n)
			file, err := s.write(fmt.Sprintf("%s-%d", g.what[:4], n), size)
			if err != nil {
				return err
			}
			t, err := s.time(5, "find", file)
			if err != nil {
				return err
			}
			net := math.Max(0.1, (t.processor-alone.processor).Seconds()*1e3)
			took, shown = append(took, net), append(shown, fmt.Sprintf("%d: %s", n, digits(net)))
		}
		tell(figure{what: "find as " + g.what + " grow, ms of the processor", shown: fmt.Sprintf("%s; exponent at the end %.2f", strings.Join(shown, ", "), exponent(g.sizes, took))})
	}
	return nil
}

// exponent is the power of the size by which time grows between the last two.
func exponent(sizes []int, took []float64) float64 {
	n := len(sizes)
	return math.Log(took[n-1]/took[n-2]) / math.Log(float64(sizes[n-1])/float64(sizes[n-2]))
}
