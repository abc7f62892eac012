// Package cams makes up cam lobes for learners: a card, lifts read with a gauge that errs,
// what befell the cam, and the answer. Their kinematics are the cycloid's and the 3-4-5
// polynomial's, and share nothing with what measures them. Everything in them is invented.
package cams
