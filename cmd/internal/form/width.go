package form

// lineWidth is the longest line of text: for a terminal of 80 columns unless FitTo
// says otherwise.
var LineWidth = widest

// A wider line is hard to read back to its beginning, and a narrower one holds no table.
const (
	widest    = 79
	narrowest = 39
)

// FitTo sets text for a terminal of so many columns; of none the width stays as it is.
// It is for the start of a program: nothing else may be under way.
func FitTo(columns int) {
	if columns > 0 {
		LineWidth = min(widest, max(narrowest, columns-1))
	}
}
