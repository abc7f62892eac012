package job

import "io/fs"

// OpenBlankFS is OpenBlank of a job file, or of the folder that a job.toml is in, in a file
// system that need not be on a disk, such as a zip's; name is as fs.ValidPath has it, and
// stands in what is said of it. A link goes where fsys lets it go. Whatever is wrong is an
// *Error.
func OpenBlankFS(fsys fs.FS, name string) (Job, error) {
	f, err := findFS(fsys, name, "")
	if err != nil {
		return Job{}, err
	}
	return parse(f.path, f.data, files{text: blank(f.of)})
}
