// Package timing turns the times of a capture's edges into crank angles: where the
// crank wheel's teeth and gaps are, and at which angles the cam edges come.
//
// Angles count in the running direction from the first leading edge after the crank
// wheel's gap. A capture says where cams stand against the crank wheel, never where
// either stands against the piston.
package timing
