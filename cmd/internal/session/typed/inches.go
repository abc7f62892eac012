package typed

import "strings"

// inInches are the examples of depths and lifts that texts have, and the same of a job in
// inches, of as many letters.
var inInches = strings.NewReplacer("342.5 3.29", "342.5 .130", "342.5 2.22", "342.5 .087", "b 11.8 0.70", "b 11.8 .028", "340 4.10", "340 .161", "62.5 1.04", "62.5 .041",
	"12 BTDC 48 ABDC at 1.0", "12 BTDC 48 ABDC at .05", "crowns 0.1 mm", "crowns .004in")

// In is a text with its examples as somebody types them who reads in a unit, "in" or "mm".
func In(unit, text string) string {
	if unit == "in" {
		return inInches.Replace(text)
	}
	return text
}
