// Package wheel is an engine's crank sensor wheel: the angles from each leading edge
// to the next, where its gaps are, and what of it looks alike. How it is written,
// 60-2 or 57x6,18, is read and written here.
//
// The rooms about it go from a capture to what is wrong, and each uses only those
// before it: fault says what is wrong with a capture, signal when a signal crosses
// its middle, capture reads the file, pattern finds what comes again, timing turns
// times into crank angles, compare says what moved since another capture.
package wheel
