package plan

// Turning is turning, for its own test.
var Turning = turning
