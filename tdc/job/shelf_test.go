package job_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/source"
)

// shelf is a folder of readings files, in memory.
func shelf(name string) ([]byte, error) {
	data, ok := map[string]string{
		"ok.csv":     "angle,depth\n348.6,3.29\n",
		"bad.csv":    "angle,depth\n348.6,deep\n",
		"beyond.csv": "angle,depth\n400,3.29\n",
		"stops.csv":  "rising,falling\n400,2\n",
		"inlet.csv":  "angle;lift;turn\n148,5;0,76;\n150;1,02;f\n",
		"lifts.csv":  "angle,lift\n2.5,0.76\n7.5,open\n",
		"half.csv":   "# on a wheel in halves\nangle;depth\n148,5;3,29\n",
	}[name]
	if !ok {
		return nil, errors.New("not found in the job's folder: check the name")
	}
	return []byte(data), nil
}

// refused is the message of a job file that must be refused.
func refused(t *testing.T, text string) string {
	t.Helper()
	_, err := job.Parse("job.toml", []byte(text), shelf)
	require.Error(t, err, "%q", text)
	var e *source.Error
	require.ErrorAs(t, err, &e, "%q", text)
	require.Positive(t, e.Line, "%q", text)
	require.Positive(t, e.Column, "%q", text)
	return err.Error()
}

func bench() evidence.Setup {
	return evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
}
