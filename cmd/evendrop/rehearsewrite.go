package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"

	"github.com/pelletier/go-toml/v2"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/practice"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// writePractice writes the job, its readings and the answer, all or none, and says so.
// Old readings never stand beside a new answer, nor new ones beside an old answer.
func writePractice(stdout io.Writer, p rehearse.Practice, replace bool) error {
	if p.AnswerFile == "" {
		p.AnswerFile = filepath.Join(p.Folder, "answer.toml")
	}
	jobFile, readings := filepath.Join(p.Folder, "job.toml"), filepath.Join(p.Folder, "cylinder-1.csv")
	if base := filepath.Base(p.AnswerFile); filepath.Dir(p.AnswerFile) == filepath.Clean(p.Folder) && (base == "job.toml" || base == "cylinder-1.csv") {
		return misuse("--answer %s: the job itself is written there: choose another name", p.AnswerFile)
	}
	answer, err := p.Answer()
	if err != nil {
		return err
	}
	text, err := p.Text()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(p.Folder, 0o777); err != nil {
		return folderError(p.Folder, err)
	}
	for path, marker := range map[string]string{jobFile: rehearse.PracticeJob, readings: rehearse.PracticeReadings, p.AnswerFile: rehearse.PracticeAnswer} {
		if err := mayReplace(path, marker, replace); err != nil {
			return err
		}
	}
	var together disk.Together
	together.Write(jobFile, p.JobFile(), replace)
	together.Write(readings, p.ReadingsFile(), replace)
	together.WriteAfter(p.AnswerFile, answer, replace)
	return together.DoneWith(func() error {
		_, err := stdout.Write(text)
		return err
	})
}

// mayReplace refuses a file that is there, unless rehearse made it and it is to be
// overwritten.
func mayReplace(path, marker string, replace bool) error {
	if _, err := os.Lstat(path); err != nil {
		return nil
	}
	if !replace {
		return &source.Error{File: path, Problem: "already exists: choose another folder, or type --replace to overwrite it"}
	}
	data, err := disk.ReadFile(path, "not found")
	if err != nil {
		return err
	}
	mine := bytes.HasPrefix(data, []byte(marker))
	if marker == rehearse.PracticeAnswer {
		_, err := readAnswer(data)
		mine = mine && err == nil
	}
	if !mine {
		return &source.Error{File: path, Problem: "was not written by evendrop rehearse, so it was left as it is: choose another folder"}
	}
	return nil
}

// readAnswer reads an answer that rehearse wrote.
func readAnswer(data []byte) (practice.Answer, error) {
	var answer practice.Answer
	if len(data) > longestAnswer {
		return answer, errNoAnswerOfOurs
	}
	if err := toml.Unmarshal(data, &answer); err != nil || !answer.Valid() {
		return answer, errNoAnswerOfOurs
	}
	return answer, nil
}
