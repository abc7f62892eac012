package main

import (
	"errors"
	"io"
	"path/filepath"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// checkAnswer marks a learner's answer.
func checkAnswer(stdout io.Writer, folder, given, file, as string, rest []string) error {
	switch {
	case folder == "":
		return misuse("--tdc goes with --check DIR: type for example evendrop rehearse --check lesson --tdc 3.4")
	case given == "":
		return misuse("--check %s: what is the answer to be marked? type for example --tdc 3.4", folder)
	case len(rest) > 0:
		return misuse("rehearse --check takes one folder, and was given %q as well", rest[0])
	}
	angle, err := crankAngle(evidence.DefaultProtractor(), given)
	if err != nil {
		return err
	}
	if file == "" {
		file = filepath.Join(folder, "answer.toml")
	}
	data, err := disk.ReadFile(file, "not found: make a practice job first, with evendrop rehearse DIR")
	if err != nil {
		return err
	}
	answer, err := readAnswer(data)
	if err != nil {
		return &source.Error{File: file, Problem: err.Error()}
	}
	return write(stdout, rehearse.Rehearsal{Marked: answer.Mark(angle)}, as)
}

// errNoAnswerOfOurs is a file in an answer's place.
var errNoAnswerOfOurs = errors.New("is not an answer that evendrop rehearse wrote: make the job anew")

// longestAnswer is more than any answer that rehearse writes; a longer file could take
// the library that reads it a while.
const longestAnswer = 64 << 10
