package job_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// More marks or joints than an engine has are refused, at the first too many.
func TestTooManyMarksAndJoints(t *testing.T) {
	var marks, joints strings.Builder
	for i := range 201 {
		fmt.Fprintf(&marks, "[[mark]]\nname = \"m%d\"\non = \"crank\"\nread = [1]\n", i)
		fmt.Fprintf(&joints, "[[joint]]\ncarried = \"c%d\"\ncarrier = \"crank\"\n", i)
	}
	const head = "[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n"
	_, err := opened(t, head+marks.String(), "")
	require.ErrorContains(t, err, "job.toml:804:1: [[mark]]: more than 200 marks")
	_, err = opened(t, head+joints.String(), "")
	require.ErrorContains(t, err, "more than 100 joints")
}

// As many readings as one file may hold are a job's for all cylinders together.
func TestTooManyReadingsInOneJob(t *testing.T) {
	rows := "angle,depth\n" + strings.Repeat("1,2\n", 6000)
	_, err := opened(t, "[[cylinder]]\nnumber = 1\nreadings = \"stops.csv\"\n[[cylinder]]\nnumber = 2\nreadings = \"stops.csv\"\n", rows)
	require.ErrorContains(t, err, "job.toml:4:1: [[cylinder]]: more than 10,000 readings in one job")
}
