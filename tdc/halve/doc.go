// Package halve finds TDC half-way between two angles at which the piston is equally
// deep: between pairs of angles alone (Pairs), and between the two flanks of readings
// with depths (Flanks). It needs the engine's dimensions only to guide the eye between
// readings.
package halve
