package words_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/plan"
)

// Why there is no plan is said in the job's own unit.
func TestPlanningInWords(t *testing.T) {
	metric, inches := words.Bench{}, words.Bench{Inches: true}
	shallow := fmt.Errorf("job: %w", plan.TooShallow{Deepest: 0.1 * geometry.Inch, Least: 0.1501 * geometry.Inch})
	require.Equal(t, "0.1 in is too little depth to plan in: expected at least 0.151 in", inches.Planning(shallow))
	require.Equal(t, "2.54 mm is too little depth to plan in: expected at least 3.82 mm", metric.Planning(shallow)) // 3.8125
	full := plan.NoRoom{Readings: 40, Deepest: geometry.Inch, Room: 24}
	require.Equal(t, "40 readings are too many: down to 1 in there are places for 24", inches.Planning(full))
	require.Equal(t, "40 readings are too many: down to 25.4 mm there are places for 24", metric.Planning(full))
	require.Equal(t, "other", metric.Planning(errors.New("other")))
}
