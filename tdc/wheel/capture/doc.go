// Package capture reads a capture of crank and cam signals, a scope's or a logic
// analyser's: any separator, decimal point or comma, header and unit of time. It is
// read twice from its start: Look learns its layout and the levels of its signals,
// Time finds when they cross their middles. What is kept between is a number an
// edge, not a number a sample. The package opens no file.
package capture
