// Package jobtest invents whole jobs for tests: an engine that nobody built, read on
// instruments of every kind, in every unit and scale, with evidence and marks of every
// kind, written down as a job folder that opens without an error.
//
// It knows none of the program that it tests: the engine has kinematics of its own,
// and the files are written from what the README says of them.
package jobtest
