package find

import (
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/doc"
	"evendrop/tdc/job"
)

// Instruments is what an answer of this job would rest on, before it is asked: the engine,
// the protractor, the gauge.
func Instruments(j job.Job) doc.Facts { return Answer{All: found.All{Job: j}}.used() }
