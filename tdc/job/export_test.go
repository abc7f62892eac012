package job

// Parse is the reading of a job file without a file system, for tests.
var Parse = parse
