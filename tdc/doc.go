// Package tdc finds the crank angle at which a piston is truly highest from
// readings of a protractor on the crank and a gauge on the piston, and says how
// sure that is.
//
// Inside, crank angles grow in the running direction and count from the
// protractor's zero; depths grow as the piston goes down. Protractor turns
// them back into what the user's instrument shows.
//
// Two methods look at the same readings. EqualDrop takes the midpoint of the
// angles at which the piston is equally deep, and needs no engine dimension.
// The adjustment fits slider-crank kinematics to all of them at once, with what
// was known before about gauge scale, lash, offset and wheel as further
// observations; what the readings cannot say about those stays in its
// uncertainty.
package tdc
