package job

import (
	"errors"

	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/mark"
)

// Open reads a job, and the readings files and photos it names: from a job file, from the
// folder that its job.toml is in, or from a zip of that folder. What it names is looked for
// from the job file's folder, and never outside it. Whatever is wrong with any is an *Error.
func Open(path string) (Job, error) {
	f, err := find(path)
	if err != nil {
		return Job{}, err
	}
	defer f.close()
	return parse(f.path, f.data, allOf(f.of))
}

// OpenTrusting is Open of a job that is trusted to name files anywhere on the
// disk; to one in a zip nothing else is there. Whatever is wrong is an *Error.
func OpenTrusting(path string) (Job, error) {
	f, err := find(path)
	if err != nil {
		return Job{}, err
	}
	defer f.close()
	if folder, is := f.of.(disk.Folder); is {
		return parse(f.path, f.data, allOf(disk.Anywhere{Folder: folder}))
	}
	return parse(f.path, f.data, allOf(f.of))
}

// OpenBlank is Open for a job whose readings and photos may still have to be taken: a
// readings file that is missing, or has none in it, is none, and photos are not looked at.
// Whatever is wrong is an *Error.
func OpenBlank(path string) (Job, error) {
	f, err := find(path)
	if err != nil {
		return Job{}, err
	}
	defer f.close()
	return parse(f.path, f.data, files{text: blank(f.of)})
}

// blank reads a folder's readings files: one that is missing, or has none in it, is none.
func blank(of folder) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if of.Missing(name) {
			return nil, errBlank
		}
		data, err := of.Read(name)
		if err == nil && sheet.Blank(name, data) {
			return nil, errBlank
		}
		return data, err
	}
}

// Amended is OpenBlank of a job file on a disk that would hold other data. What would make
// no job of it, or would put a mark on a member that the drive lacks, is an *Error.
func Amended(path string, data []byte) (Job, error) {
	j, err := parse(path, data, files{text: blank(disk.FolderOf(path))})
	if err != nil {
		return j, err
	}
	if of := mark.Check(j.Drive, j.Marks); of != nil {
		return j, j.Locate(of)
	}
	return j, nil
}

// CheckBlank is what would be wrong with a job file, yet to be written, whose readings
// are still to be taken; nil when it would open. What is wrong is an *Error.
func CheckBlank(path string, data []byte) error {
	_, err := parse(path, data, files{text: func(string) ([]byte, error) { return nil, errBlank }})
	return err
}

// errBlank stands for a readings file without readings.
var errBlank = errors.New("no readings yet")
