// Package benchtest is a bench that shares nothing with what it tests: the
// slider-crank is a distance kept between two points, TDC the highest place found by
// search, the wheel a disc whose centre stands beside the crank's and whose
// graduations are out by errors of their own, the lash a piston left behind until its
// clearance is used up, the steps real rounding. It reads jobs, lets things slip while
// they are read, and counts what became of many of them.
//
// It computes in radians and millimetres; what an instrument shows, and what it is
// out by, is in degrees.
package benchtest
