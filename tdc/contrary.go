package tdc

// contraryRun is readings that follow one another the other way than they say they
// were turned.
type contraryRun struct {
	from, steps int
}

// fewestContrary is how many steps speak of an order.
const fewestContrary = 4

// contraryRuns are the runs of readings, in the order they were written and as one
// sweep of one turn, in which the angles go steadily the wrong way.
func contraryRuns(read []Reading) (runs []contraryRun) {
	run := contraryRun{}
	end := func() {
		if run.steps >= fewestContrary {
			runs = append(runs, run)
		}
	}
	for i := 1; i < len(read); i++ {
		if contrary(read[i-1], read[i]) {
			run.steps++
			continue
		}
		end()
		run = contraryRun{from: i}
	}
	end()
	return runs
}

// onward is how far a reading lies on from the one before it, the way that they were
// turned; nought between readings of unlike sweeps.
func onward(before, r Reading) float64 {
	if r.Turn != before.Turn || r.Sweep != before.Sweep {
		return 0
	}
	return float64((r.Angle - before.Angle).Signed()) * float64(r.Turn)
}

// contrary tells whether one reading lies the wrong way from the one before it.
func contrary(before, r Reading) bool { return onward(before, r) < 0 }

// allContrary tells whether no reading at all goes the right way from the one before.
func allContrary(read []Reading, runs []contraryRun) bool {
	for i := 1; i < len(read); i++ {
		if onward(read[i-1], read[i]) > 0 {
			return false
		}
	}
	return len(runs) > 0
}

// AgainstTheirTurn tells whether the last readings, two steps on end, go the other
// way than they say they were turned.
func AgainstTheirTurn(read []Reading) bool {
	n := len(read)
	return n >= 3 && contrary(read[n-3], read[n-2]) && contrary(read[n-2], read[n-1])
}
