package disk_test

import (
	"errors"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/disk"
)

func TestReadAllThatCannotBeRead(t *testing.T) {
	_, err := disk.ReadAll(iotest.ErrReader(errors.New("the disk is gone")))
	require.EqualError(t, err, "cannot be read: the disk is gone")
}
