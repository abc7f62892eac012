package job

import "io/fs"

// OpenBlankFS is OpenFS for a job whose readings may still have to be taken, as OpenBlank
// is of Open.
func OpenBlankFS(fsys fs.FS, name string) (Job, error) {
	f, err := findFS(fsys, name, "")
	if err != nil {
		return Job{}, err
	}
	return parse(f.path, f.data, files{text: blank(f.of)})
}
