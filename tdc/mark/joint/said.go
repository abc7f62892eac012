package joint

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/tdc/mark"
)

func slips(n int) string {
	if n == 1 {
		return "one slip"
	}
	return fmt.Sprintf("%d slips", n)
}

// String writes an explanation's slips.
func (e Explanation) String() string {
	var parts []string
	for _, s := range e.Slips {
		parts = append(parts, s.String())
	}
	return strings.Join(parts, ", and ")
}

// String writes a slip: its joints, how far and which way.
func (s Slip) String() string {
	var names []string
	for _, j := range s.Joints {
		if slices.Contains(s.Opposite, j) {
			j += " (" + mark.Way(-s.Angle) + ")"
		}
		names = append(names, j)
	}
	last := len(names) - 1
	text := names[last]
	if last > 0 {
		text = strings.Join(names[:last], ", ") + " or " + text
	}
	return fmt.Sprintf("%s, %s ± %s deg %s", text, mark.Size(s.Angle), mark.Size(s.Expanded), mark.Way(s.Angle))
}
