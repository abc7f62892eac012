package form

// A wider line is hard to read back to its beginning, and a narrower one holds no table.
const (
	Widest    = 79
	narrowest = 39
)

// Width is the longest line of text on a terminal of so many columns: of 80 where their
// number is not known and 0.
func Width(columns int) int {
	if columns <= 0 {
		return Widest
	}
	return min(Widest, max(narrowest, columns-1))
}
