// Package wheel reads an engine's sensor wheels from a capture of crank and cam
// signals: where its teeth and gaps are, and at which crank angles the cam edges
// come.
//
// Angles count in the running direction from the first leading edge after the
// crank wheel's gap. A capture is read twice from its start: Look learns its
// layout and the levels of its signals, Time finds when they cross; Measure then
// turns times into angles. What is kept between is a number an edge, not a number
// a sample. The package opens no file.
//
// A capture says where cams stand against the crank wheel, never where either
// stands against the piston.
package wheel
