package job

// Parse is the reading of a job file without a file system, for tests; photos are read by
// the same function.
func Parse(name string, data []byte, open func(name string) ([]byte, error)) (Job, error) {
	return parse(name, data, files{open, open})
}

// WithoutLines is a job that does not know which lines its marks are from.
func (j Job) WithoutLines() Job {
	j.markLines, j.markSets, j.jointLines, j.lobeLines = nil, nil, nil, nil
	return j
}
