package capture

import (
	"bytes"
	"math"
	"strings"
)

// missing are words for a sample that there is none of; what they say about the
// signal is nothing.
var missing = map[string]bool{
	"": true, "-": true, "--": true, "---": true, "nan": true, "n/a": true, "na": true, "null": true, "#n/a": true, "?": true,
	"***": true, "****": true, "*****": true, "******": true,
}

// beyond are words for a sample past the instrument's range.
var beyond = map[string]bool{
	"inf": true, "infinity": true, "∞": true, "ol": true, "o.l": true, "ovf": true, "over": true, "overload": true, "overflow": true,
	"overrange": true, "over range": true, "clip": true, "clipped": true, "1.#inf": true,
}

// cell reads a whole cell: a number, an infinity for one past the range, or NaN
// for one missing; ok is false for anything else.
func cell(b []byte, point byte) (value float64, ok bool) {
	b = bytes.TrimSpace(b)
	if len(b) > 1 && b[0] == '"' && b[len(b)-1] == '"' {
		b = bytes.TrimSpace(b[1 : len(b)-1])
	}
	if value, n := number(b, point); n == len(b) && n > 0 {
		return value, true
	}
	if len(b) > 24 {
		return 0, false
	}
	text := strings.ToLower(string(b))
	if missing[text] {
		return math.NaN(), true
	}
	sign := 1.0
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "<") {
		sign = -1
	}
	bare := strings.TrimLeft(text, "+-")
	if beyond[bare] {
		return math.Inf(int(sign)), true
	}
	if rest := strings.TrimLeft(text, "<>="); rest != text {
		if _, n := number([]byte(rest), point); n == len(rest) && n > 0 {
			return math.Inf(int(sign)), true
		}
	}
	return 0, false
}
