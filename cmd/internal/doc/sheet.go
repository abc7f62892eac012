package doc

// The blocks of a sheet, which somebody looks at for ten seconds.

// Banner is who made a sheet, what it is about, and when: a line over it.
type Banner struct{ From, About, When string }

// Numbers are a few that matter, each as large as its place allows.
type Numbers []Number

// Number is one of them, in words that are ready to be shown.
type Number struct {
	What  string // the thing measured: "locking pin hole"
	Where string // "on the flywheel"; "" without
	Value string // "2.8"
	Unit  string // "°" follows the value at once, words after a blank
	Way   string // "late"; "" without
	Half  string // half-width of the 95 % interval with its unit: "0.4°"
	Allow string // what is allowed: "1°"; "" without
	State State
	Word  string // the state in words: "outside"
	// Likely is that the part which carries it is likely to be the one that moved.
	Likely bool
	Was    *Was     // before a repair; nil without
	Notes  []string // the same in other words: "at the cam 0.3 ± 0.5°"
}

// Was is how a number stood before.
type Was struct {
	Says  string // "2.8° late, outside"
	State State
}

// Beside is two documents side by side, or the first above the second where there is no
// room.
type Beside struct{ First, Second Document }

// Photo is a picture that somebody took. Its bytes go into a page; in text there is only
// what it shows.
type Photo struct {
	Data          []byte
	MIME          string // image/jpeg or image/png
	Width, Height int    // pixels as it is shown
	Shows         string
}

// Amount is the value with its unit.
func (n Number) Amount() string {
	if n.Unit == "°" || n.Unit == "" {
		return n.Value + n.Unit
	}
	return n.Value + " " + n.Unit
}
