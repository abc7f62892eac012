package capture

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

// powers are the powers of ten that a float64 holds exactly.
var powers = [...]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// number reads the decimal number that b begins with, after spaces, and how many
// bytes it took; 0 when b begins with none. A whole number below 2^53 times or
// over an exact power of ten is rounded once, as it should be; the rare others go
// to strconv. A capture of 222 MB has 50 million numbers to read, and takes 1.2 s
// so; by strconv alone it takes 2.7 s.
func number(b []byte, point byte) (value float64, length int) {
	i := 0
	for i < len(b) && b[i] == ' ' {
		i++
	}
	start := i
	negative := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		negative = b[i] == '-'
		i++
	}
	var whole uint64
	digits := i
	for ; i < len(b) && b[i]-'0' <= 9; i++ {
		whole = whole*10 + uint64(b[i]-'0')
	}
	count, exponent := i-digits, 0
	if i < len(b) && b[i] == point {
		i++
		after := i
		for ; i < len(b) && b[i]-'0' <= 9; i++ {
			whole = whole*10 + uint64(b[i]-'0')
		}
		exponent = after - i
		count += i - after
	}
	if count == 0 {
		return 0, 0
	}
	if i < len(b) && b[i]|0x20 == 'e' {
		power, n := tens(b[i+1:])
		if n == 0 {
			return 0, 0
		}
		exponent += power
		i += 1 + n
	}
	if count > 19 || whole >= 1<<53 || exponent < -22 || exponent > 22 {
		return slowly(b[start:i], point), i
	}
	value = float64(whole)
	if exponent < 0 {
		value /= powers[-exponent]
	} else {
		value *= powers[exponent]
	}
	if negative {
		value = -value
	}
	return value, i
}

// tens reads an exponent, and how many bytes it took; 0 when there is none.
func tens(b []byte) (power, length int) {
	i := 0
	negative := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		negative = b[i] == '-'
		i++
	}
	digits := i
	for ; i < len(b) && b[i]-'0' <= 9; i++ {
		power = min(power*10+int(b[i]-'0'), 100000)
	}
	if i == digits {
		return 0, 0
	}
	if negative {
		power = -power
	}
	return power, i
}

// slowly reads a number that has been looked over; one too large is infinite.
func slowly(b []byte, point byte) float64 {
	text := string(b)
	if point != '.' {
		text = strings.Replace(text, string(point), ".", 1)
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil && !math.IsInf(value, 0) {
		return math.NaN()
	}
	return value
}

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
