// Package plan says where to read next, and what it will buy.
//
// A plan is judged by the covariance of the adjustment that will be made of its
// readings, foreseen from the engine and the instruments alone. No place is read
// twice turning the same way: a protractor's own error at a place is the same
// in every repeat, so that a repeat would promise more than it brings.
package plan
