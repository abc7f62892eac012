// Package slip tells whether something moved while a cylinder was read: the
// protractor or its pointer, the gauge's zero, or what was written of the turn.
//
// Hypotheses are averaged, never picked: each has a chance before any reading, the
// readings are adjusted under each, and TDC's interval is that of all of them by how
// probable the readings make them. Above a probability a move is a finding.
package slip
