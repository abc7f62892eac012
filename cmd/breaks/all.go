package main

import (
	"fmt"
	"io"
	"sync"
	"time"
)

// tryAll tries the breaks, so many at a time, says what became of each and keeps it.
func tryAll(a attempt, list []Break, kept results, keep func() error, at int, out io.Writer) (fine bool) {
	fine = true
	var telling sync.Mutex
	var all sync.WaitGroup
	next := make(chan int)
	for range max(1, at) {
		all.Go(func() {
			for n := range next {
				b := list[n]
				telling.Lock()
				first := kept[b.Why].Test
				telling.Unlock()
				v, test, err := a.try(n, b, first)
				telling.Lock()
				if err == nil {
					kept[b.Why] = Result{Date: time.Now().Format(time.DateOnly), Verdict: v, Mark: b.mark(), Test: test}
					err = keep()
				}
				fine = tell(out, b, v, test, err) && fine
				telling.Unlock()
			}
		})
	}
	for n := range list {
		next <- n
	}
	close(next)
	all.Wait()
	return fine
}

// tell is false when somebody has to look at the break.
func tell(out io.Writer, b Break, v Verdict, test string, err error) bool {
	switch {
	case err != nil:
		fmt.Fprintf(out, "%-9s %v\n", "error", err)
		return false
	case v != Escaped && b.Escapes != "":
		fmt.Fprintf(out, "%-9s %s, by %s, though the list says that it escapes: strike its reason\n", v, b.Why, test)
	case v != Escaped:
		fmt.Fprintf(out, "%-9s %s, by %s\n", v, b.Why, test)
	case b.Escapes == "":
		fmt.Fprintf(out, "%-9s %s: %s\n", v, b.listed, b.Why)
		return false
	default:
		fmt.Fprintf(out, "%-9s %s: %s\n", v, b.Why, b.Escapes)
	}
	return true
}
