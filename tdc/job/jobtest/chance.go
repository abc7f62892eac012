package jobtest

import (
	"math/rand/v2"

	"pgregory.net/rapid"
)

// chance draws a job: what it is made of by rapid, which can make it smaller, and the
// sizes in it by a source whose seed rapid drew.
type chance struct {
	*rapid.T
	*rand.Rand
}

func newChance(t *rapid.T) chance {
	return chance{t, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "sizes"), 20261125))}
}

// often is true once in two, seldom once in four, rarely once in sixteen, mostly three
// times in four.
func (c chance) often(what string) bool  { return rapid.Bool().Draw(c.T, what) }
func (c chance) seldom(what string) bool { return c.all(2, what) }
func (c chance) rarely(what string) bool { return c.all(4, what) }

func (c chance) mostly(what string) bool {
	first := c.often(what)
	return first || c.often(what)
}

// all tells whether so many coins fell the same way.
func (c chance) all(coins int, what string) bool {
	for range coins {
		if !c.often(what) {
			return false
		}
	}
	return true
}

// number is from low to high, low the likeliest.
func (c chance) number(what string, low, high int) int {
	return rapid.IntRange(low, high).Draw(c.T, what)
}

// oneOf is one of a list, the first the likeliest.
func oneOf[V any](c chance, what string, list ...V) V { return rapid.SampledFrom(list).Draw(c.T, what) }

func (c chance) between(low, high float64) float64 { return low + (high-low)*c.Float64() }

// about is anywhere within half either way.
func (c chance) about(half float64) float64 { return c.between(-half, half) }
