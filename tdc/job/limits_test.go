package job_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/knowngood"
)

// More marks or joints than an engine has are refused, at the first too many.
func TestTooManyMarksAndJoints(t *testing.T) {
	var marks, joints strings.Builder
	for i := range 201 {
		fmt.Fprintf(&marks, "[[mark]]\nname = \"m%d\"\non = \"crank\"\nread = [1]\n", i)
		fmt.Fprintf(&joints, "[[joint]]\ncarried = \"c%d\"\ncarrier = \"crank\"\n", i)
	}
	_, err := knowngood.Parse("good.toml", []byte(strings.ReplaceAll(marks.String(), "read = [1]", "should_be = 1\nstandard_uncertainty = 1")))
	require.ErrorContains(t, err, "good.toml:1001:1: [[mark]]: more than 200 marks")
	const head = "[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n"
	_, err = opened(t, head+marks.String(), "")
	require.ErrorContains(t, err, "job.toml:804:1: [[mark]]: more than 200 marks")
	_, err = opened(t, head+joints.String(), "")
	require.ErrorContains(t, err, "more than 100 joints")
}

// As many readings as one file may hold are a job's for all cylinders together.
func TestTooManyReadingsInOneJob(t *testing.T) {
	rows := "angle,depth\n" + strings.Repeat("1,2\n", 2000)
	_, err := opened(t, "[[cylinder]]\nnumber = 1\nreadings = \"stops.csv\"\n[[cylinder]]\nnumber = 2\nreadings = \"stops.csv\"\n", rows)
	require.ErrorContains(t, err, "job.toml:4:1: [[cylinder]]: more than 3,000 readings in one job")
}

// A key of more names than any job needs is refused at the first too many, not
// taken apart to its end.
func TestTooManyNamesInAKey(t *testing.T) {
	long := strings.Repeat("a.", 1<<18)
	for text, at := range map[string]string{long + "b = 1\n": "1:33", "[" + long + "b]\n": "1:34", "x = { " + long + "b = 1 }\n": "1:39"} {
		_, err := opened(t, text, "")
		require.ErrorContains(t, err, "job.toml:"+at+": more than 16 names in one key: expected a key such as stroke or engine.stroke")
	}
	_, err := opened(t, strings.Repeat("a.", 15)+"b = 1\n", "")
	require.NotContains(t, err.Error(), "names in one key")
}

// A list of more than anybody writes is refused before it is taken apart.
func TestTooLongLists(t *testing.T) {
	for _, list := range []string{"title = [" + strings.Repeat("{},", 3001) + "1]\n", "[[cylinder]]\nnumber = 1\nstops = [" + strings.Repeat("[1,2],", 3001) + "]\n"} {
		_, err := opened(t, list, "")
		require.ErrorContains(t, err, "more than 3,000 items in one list: expected what somebody wrote by hand")
	}
}

// Nor may many lists together be longer.
func TestTooManyItemsInAll(t *testing.T) {
	var lists strings.Builder
	for i := range 8 {
		fmt.Fprintf(&lists, "t%d = [%s1]\n", i, strings.Repeat("{},", 2998))
	}
	_, err := opened(t, lists.String(), "")
	require.ErrorContains(t, err, "job.toml:7:1: t6: more than 20,000 items in the lists of one file")
}
