package job

import (
	"errors"

	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
)

// OpenBlank is Open for a job whose readings may still have to be taken: a
// readings file that is missing, or has none in it, is none.
func OpenBlank(path string) (Job, error) {
	folder := disk.FolderOf(path)
	return openJob(path, func(name string) ([]byte, error) {
		if folder.Missing(name) {
			return nil, errBlank
		}
		data, err := folder.Read(name)
		if err == nil && sheet.Blank(name, data) {
			return nil, errBlank
		}
		return data, err
	})
}

// CheckBlank is what would be wrong with a job file, yet to be written, whose readings
// are still to be taken; nil when it would open. What is wrong is an *Error.
func CheckBlank(path string, data []byte) error {
	_, err := parse(path, data, func(string) ([]byte, error) { return nil, errBlank })
	return err
}

// errBlank stands for a readings file without readings.
var errBlank = errors.New("no readings yet")
