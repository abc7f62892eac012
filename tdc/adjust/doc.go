// Package adjust fits slider-crank kinematics to one cylinder's readings and pairs of
// angles at once, with what was known before about gauge scale, lash, offset and wheel
// as further observations; what the readings cannot say about those stays in its
// uncertainty. From the adjustment come TDC's budget, trials, what further readings
// would add, and how sure any position on the protractor is.
package adjust
