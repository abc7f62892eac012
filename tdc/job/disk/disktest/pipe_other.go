//go:build !unix

package disktest

import "errors"

// MakePipe makes no pipe: there are none.
func MakePipe(string) error { return errors.ErrUnsupported }
