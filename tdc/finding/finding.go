// Package finding is what the core has to say: findings as values. A finding has a
// kind, a place, numbers with their units, and a cure; it has no words. Whoever
// shows it words it, and nobody reads the words back.
//
// Every kind is a struct here, made by tdc, tdc/mark, tdc/plan or tdc/wheel. Its
// fields carry their units in the names that JSON gives them: angles in degrees,
// lengths in millimetres.
package finding

// Finding is one of the kinds of this package.
type Finding interface {
	// Kind names the kind: "suspect reading".
	Kind() string
	// Cure is what would mend it.
	Cure() Cure
}

// Cure is what would mend what a finding weakens.
type Cure int

// The cures.
const (
	None         Cure = iota // there is nothing to do
	ReadAgain                // the same again
	ReadMore                 // more readings, or elsewhere
	TurnBack                 // read turning the other way too, where that is safe
	MendJob                  // what was typed
	LookAtEngine             // or at the set-up on it
)

// TurnsBack tells whether any of the findings asks for the crank to be turned back,
// which has a caution of its own.
func TurnsBack(findings []Finding) bool {
	for _, f := range findings {
		if f.Cure() == TurnBack {
			return true
		}
	}
	return false
}
