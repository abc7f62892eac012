package signal

// A change that is taken back within this part of a tooth's time is bounce or a
// disturbance, and no tooth: the narrowest tooth of a usual wheel is a fifth of its
// pitch. Above mostBounce, s, none bounces so long (common practice, no source).
const (
	bouncePart = 0.02
	mostBounce = 200e-6
)

// bounceHistory is how many of the last periods a tooth's time is the median of.
const bounceHistory = 8

// withoutBounce is the times of a signal's changes, one way and the other by
// turns, without those that bounce: what is known of the tooth's time comes from
// before, and then from after, for the first ones. A sensor whose every tooth is
// a pulse as short has no bounce that can be told from it.
func withoutBounce(times []float64) []float64 {
	forward, spikes := sweep(times, false)
	mirrored, more := sweep(mirror(forward), true)
	if 2*(spikes+more) > len(mirrored) {
		return times
	}
	return mirror(mirrored)
}

// mirror is times seen from the end.
func mirror(times []float64) []float64 {
	out := make([]float64, len(times))
	for i, t := range times {
		out[len(times)-1-i] = -t
	}
	return out
}

// sweep leaves bounce out, and counts the pulses among it: a burst after which the
// level is another is one edge, the first in time, and one after which it is the
// same is none.
func sweep(times []float64, mirrored bool) (kept []float64, pulses int) {
	kept = make([]float64, 0, len(times))
	var periods []float64
	for i := 0; i < len(times); {
		within := bounceWithin(periods)
		j := i + 1
		for j < len(times) && times[j]-times[i] < within {
			j++
		}
		first := i
		if mirrored {
			first = j - 1
		}
		size := j - i
		i = j
		if size%2 == 0 {
			pulses++
			continue
		}
		kept = append(kept, times[first])
		if n := len(kept); n > 2 {
			periods = append(periods[max(0, len(periods)-bounceHistory+1):], kept[n-1]-kept[n-3])
		}
	}
	return kept, pulses
}

// bounceWithin is how long bounce lasts where teeth follow one another so; 0 while
// few are known.
func bounceWithin(periods []float64) float64 {
	if len(periods) < bounceHistory/2 {
		return 0
	}
	return min(bouncePart*Median(periods), mostBounce)
}
