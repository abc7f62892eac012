package fit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// plane is y = b0 + b1 w + 2 x: linear in everything that a step moves.
type plane struct{ w []float64 }

func (p plane) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	for i := range x {
		y[i], slope[i] = beta[0]+beta[1]*p.w[i]+2*x[i], 2
		jac[0][i], jac[1][i] = 1, p.w[i]
	}
}

// In a linear problem a step gains what was foreseen, damped or not, with errors in
// one variable or both and with priors; undamped, nothing is left to gain.
func TestStepsGainWhatIsForeseen(t *testing.T) {
	for _, sigmaX := range [][]float64{nil, {0.3, 0.1, 0.5, 0, 0.2}} {
		s, err := NewSolver(Problem{
			Model: plane{[]float64{-2, -1, 0, 1, 3}}, X: []float64{0, 1, 2, 3, 4}, Y: []float64{1, 5, 2, 9, 4},
			SigmaX: sigmaX, SigmaY: []float64{0.5, 1, 0.2, 2, 1}, Priors: []Prior{Free(), {Mean: 1, Sigma: 0.3}},
		})
		require.NoError(t, err)
		for _, lambda := range []float64{0, 1e-4, 0.1, 1, 30} {
			s.loss = LeastSquares()
			require.True(t, s.place([]float64{3, -2}))
			s.linearise()
			s.measure()
			s.damped(lambda)
			s.evaluate(&s.next)
			gain := s.gain()
			require.Positive(t, gain)
			require.InEpsilon(t, s.foreseen, gain, 1e-12, "lambda %v", lambda) // a sum of ten squares
			s.now, s.next = s.next, s.now
			s.linearise()
			s.damped(lambda)
			s.evaluate(&s.next)
			if lambda == 0 {
				require.InDelta(t, 0, s.foreseen, 1e-20*gain+1e-20)
			}
		}
	}
}
