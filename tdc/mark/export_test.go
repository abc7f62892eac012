package mark

// Settles is settles, for its own test.
var Settles = settles
