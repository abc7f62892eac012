// Package signal tells when a sensor's signal crosses its middle: what its levels
// are, how it looks, and what of its crossings is noise or bounce. It is fed sample
// by sample, and keeps a number an edge.
package signal
