package job

import "io/fs"

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

// OpenFS is OpenBlankFS of a job whose readings are taken, its photos with it.
func OpenFS(fsys fs.FS, name string) (Job, error) {
	f, err := findFS(fsys, name, "")
	if err != nil {
		return Job{}, err
	}
	return parse(f.path, f.data, allOf(f.of))
}
