// Package plan says where to read next, and what it will buy.
//
// A plan is judged by the covariance of the adjustment that will be made of its
// readings, foreseen from the engine and the instruments alone. No place is read
// twice turning the same way: a protractor's own error at a place is the same
// in every repeat, so that a repeat would promise more than it brings.
//
// Best is the surest plan there is; Advise and Reach are what one would do who has done
// it: round drops, and turning back only where that is worth it. Look is for who judges
// by eye.
package plan
