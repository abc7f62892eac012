//go:build !unix

package job_test

import "errors"

// makePipe makes no pipe: there are none.
func makePipe(string) error { return errors.ErrUnsupported }
