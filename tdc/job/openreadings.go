package job

import (
	"errors"
	"path/filepath"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// errNoReadings is said of a readings file that is not there.
var errNoReadings = errors.New("not found: check the name of the readings file")

// OpenReadings reads a readings file that the user named, as ReadReadings does.
func OpenReadings(path string, setup evidence.Setup, unit string) ([]evidence.Reading, error) {
	data, err := disk.ReadFile(path, errNoReadings)
	switch {
	case err != nil:
		return nil, err
	case strings.EqualFold(filepath.Ext(path), ".toml"):
		return nil, source.Of(path, source.Curable{Problem: "is a job file by its name, not a readings file", Cure: source.AsJob})
	}
	return sheet.ReadReadings(path, data, setup, unit)
}
