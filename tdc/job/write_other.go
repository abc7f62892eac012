//go:build !linux

package job

import "io/fs"

func deliver(path string, data []byte, mode fs.FileMode, replace bool) error {
	return deliverNamed(path, data, mode, replace)
}
