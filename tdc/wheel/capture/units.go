package capture

import (
	"regexp"
	"strings"
)

// TimeUnit is what a capture's time column counts in.
type TimeUnit string

// The units of time.
const (
	Seconds      TimeUnit = "s"
	Milliseconds TimeUnit = "ms"
	Microseconds TimeUnit = "us"
	Nanoseconds  TimeUnit = "ns"
	Samples      TimeUnit = "samples"
)

// seconds is how long a unit is; a sample lasts as long as its rate says.
func (u TimeUnit) seconds(rate float64) float64 {
	switch u {
	case Milliseconds:
		return 1e-3
	case Microseconds:
		return 1e-6
	case Nanoseconds:
		return 1e-9
	case Samples:
		return 1 / rate
	}
	return 1
}

// unitWord is a unit of time by itself or at the end of a heading, in brackets or
// after a blank, stroke or underline.
var unitWord = regexp.MustCompile(`(?:^|[\s(\[{/_,.:])(s|secs?|seconds?|ms|msecs?|milliseconds?|us|usecs?|microseconds?|ns|nanoseconds?|samples?|index|points?)[)\]}]?$`)

// micro are the ways the micro sign is written, the last that of Latin-1, which
// is no UTF-8 and has become a question mark.
var micro = strings.NewReplacer("\u00b5", "u", "\u03bc", "u", "?s", "us")

// unitIn is the unit of time that a heading tells; "" when it tells none.
func unitIn(heading string) TimeUnit {
	text := micro.Replace(strings.ToLower(strings.TrimSpace(heading)))
	m := unitWord.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	switch word := m[1]; {
	case strings.HasPrefix(word, "ms") || strings.HasPrefix(word, "mil"):
		return Milliseconds
	case strings.HasPrefix(word, "us") || strings.HasPrefix(word, "mic"):
		return Microseconds
	case strings.HasPrefix(word, "ns") || strings.HasPrefix(word, "nan"):
		return Nanoseconds
	case strings.HasPrefix(word, "sam") || strings.HasPrefix(word, "i") || strings.HasPrefix(word, "p"):
		return Samples
	}
	return Seconds
}

var bareUnit = regexp.MustCompile(`^[(\[]?[a-zA-Z?µμ]{0,8}[)\]]?$`)

// unitOnly says whether a heading is a unit rather than a name.
func unitOnly(heading string) bool {
	text := strings.ToLower(strings.Trim(heading, "()[] "))
	switch text {
	case "v", "mv", "kv", "volt", "volts", "a", "ma", "":
		return true
	}
	return bareUnit.MatchString(heading) && unitIn(text) != ""
}
