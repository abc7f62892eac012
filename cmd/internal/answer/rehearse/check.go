package rehearse

import (
	"errors"

	"github.com/pelletier/go-toml/v2"

	"evendrop/cmd/internal/practice"
	"evendrop/geometry"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// Check marks a learner's TDC by the answer in a file; "" for the folder's own.
func Check(folder, file string, given geometry.Angle) (Rehearsal, error) {
	if file == "" {
		file = answerIn(folder)
	}
	data, err := disk.ReadFile(file, errors.New("not found: make a practice job first, with evendrop rehearse DIR"))
	if err != nil {
		return Rehearsal{}, err
	}
	answer, err := readAnswer(data)
	if err != nil {
		return Rehearsal{}, &source.Error{File: file, Problem: err.Error()}
	}
	return Rehearsal{Marked: answer.Mark(given)}, nil
}

// errNotOurs is a file in an answer's place.
var errNotOurs = errors.New("is not an answer that evendrop rehearse wrote: make the job again")

// longestAnswer is more than any answer that rehearse writes; a longer file could take
// the library that reads it a while.
const longestAnswer = 64 << 10

// readAnswer reads an answer that rehearse wrote.
func readAnswer(data []byte) (practice.Answer, error) {
	var answer practice.Answer
	if len(data) > longestAnswer {
		return answer, errNotOurs
	}
	if err := toml.Unmarshal(data, &answer); err != nil || !answer.Valid() {
		return answer, errNotOurs
	}
	return answer, nil
}
