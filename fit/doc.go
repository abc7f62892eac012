// Package fit adjusts the parameters of a curve to observations: weighted
// nonlinear least squares with errors in both variables, priors entered as
// observations, and a loss that a gross error cannot pull far.
//
// Numbers in, numbers out: it knows no engine. The observations are
//
//	x_i = t_i + error of standard uncertainty SigmaX_i
//	y_i = f_i(t_i; beta) + error of standard uncertainty SigmaY_i
//	b_j = beta_j + error of standard uncertainty Priors_j.Sigma
//
// and the solution minimises the sum of their squared standardised residuals
// over beta and the true abscissae t: orthogonal distance regression.
//
// Each step eliminates the abscissae by hand, point by point, and solves what is
// left by Householder QR with the priors as its first rows (Gauss-Newton), damped
// as by Levenberg and Marquardt when a full step does not help. QR makes the
// columns orthogonal, which does all that centring them would do and more.
//
// References, by their keys in DEVELOPERS.md: Boggs1987, More1978, BeatonTukey,
// Huber1964.
package fit
