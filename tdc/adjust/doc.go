// Package adjust is what the curve fitted to one cylinder's readings and pairs of angles
// says: TDC with its budget, lash and scale, each kind of evidence on its own, what does
// not fit, trials of the whole job, and what further readings would add. What the readings
// cannot say about lash, offset and wheel stays in its uncertainty.
package adjust
