package fit

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// Trial is one draw of a quantity from what is known of its inputs.
type Trial func(rng *rand.Rand) float64

// trialsAtOnce is how many trials share one stream of random numbers. Streams
// belong to trials and not to cores, so that the sample is the same on any number
// of them.
const trialsAtOnce = 500

// Trials is a sample of n draws (JCGM 101), the same for the same seed. Each core
// makes itself a trial by newTrial. Where progress is not nil it is told how many
// draws are done, now and then, by one core at a time.
func Trials(n int, seed uint64, newTrial func() Trial, progress func(done int)) Sample {
	values := make([]float64, n)
	var next, done atomic.Int64
	var telling sync.Mutex
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			trial := newTrial()
			source := rand.NewPCG(0, 0)
			rng := rand.New(source)
			for {
				stream := int(next.Add(1)) - 1
				from := stream * trialsAtOnce
				if from >= n {
					return
				}
				source.Seed(seed, uint64(stream))
				part := values[from:min(n, from+trialsAtOnce)]
				for i := range part {
					part[i] = trial(rng)
				}
				sum := done.Add(int64(len(part)))
				if progress != nil {
					telling.Lock()
					progress(int(sum))
					telling.Unlock()
				}
			}
		})
	}
	all.Wait()
	slices.Sort(values)
	return Sample{values}
}

// Sample is the draws of a quantity, in order of size.
type Sample struct {
	values []float64
}

// Mean is the estimate (JCGM 101 7.6).
func (s Sample) Mean() float64 {
	sum := 0.0
	for _, v := range s.values {
		sum += v - s.values[0] // so that a great offset costs no digits
	}
	return s.values[0] + sum/float64(len(s.values))
}

// Deviation is the standard uncertainty.
func (s Sample) Deviation() float64 {
	mean, sum := s.Mean(), 0.0
	for _, v := range s.values {
		sum += sq(v - mean)
	}
	return math.Sqrt(sum / float64(len(s.values)-1))
}

// Symmetric is the interval that leaves as many draws below as above and holds the
// share p of them (JCGM 101 7.7.2).
func (s Sample) Symmetric(p float64) (low, high float64) {
	n, held := len(s.values), s.held(p)
	from := (n - held + 1) / 2
	return s.values[min(from, n-1-held)], s.values[min(from, n-1-held)+held]
}

// Shortest is the shortest interval that holds the share p of the draws (JCGM 101
// 7.7.4).
func (s Sample) Shortest(p float64) (low, high float64) {
	held, best := s.held(p), 0
	for i := range len(s.values) - held {
		if s.values[i+held]-s.values[i] < s.values[best+held]-s.values[best] {
			best = i
		}
	}
	return s.values[best], s.values[best+held]
}

// held is how many places apart the ends of an interval lie that holds the share p.
func (s Sample) held(p float64) int {
	return min(len(s.values)-1, int(p*float64(len(s.values))+0.5))
}
