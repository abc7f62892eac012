package main

import (
	"slices"

	"evendrop/cmd/internal/answer/rehearse/class"
	"evendrop/cmd/internal/form"
)

// classAsked is a class that is to be made.
type classAsked struct {
	size    int
	seed    uint64
	key     string // the folder of the answers; "" for the class's own
	replace bool
}

// makeClass makes a class in a folder.
func makeClass(c console, typed []string, asked classAsked, rest []string) error {
	if other := otherThan(typed, "class", "seed", "answer", "replace"); other != "" {
		return misuse("--%s is of a single job: a class draws its own engines and errors from --seed", other)
	}
	if len(rest) != 1 {
		return misuse("rehearse --class takes one folder: type for example evendrop rehearse --class 20 monday --seed 7")
	}
	made, err := class.Make(asked.seed, asked.size, rest[0], asked.key)
	if err != nil {
		return err
	}
	made.Version = version()
	page, err := made.Text(c.width)
	if err != nil {
		return err
	}
	return made.Write(asked.replace, func() error { return c.print(page) })
}

// checkClass marks a file of answers.
func checkClass(c console, typed []string, m marking, answers string, rest []string) error {
	switch other := otherThan(typed, "check", "answers", "answer", "as"); {
	case m.folder == "":
		return misuse("--answers goes with --check DIR: type for example evendrop rehearse --check monday --answers answers.csv")
	case other != "":
		return misuse("--%s does not go with --answers: a class is marked by its file alone", other)
	case len(rest) > 0:
		return misuse("rehearse --check takes one folder, and was given %q as well", rest[0])
	}
	marked, err := class.Check(m.folder, m.file, answers)
	if err != nil {
		return err
	}
	return c.write(form.Of(marked), m.as)
}

// otherThan is the first flag typed that is none of some; "" where there is none.
func otherThan(typed []string, some ...string) string {
	for _, name := range typed {
		if !slices.Contains(some, name) {
			return name
		}
	}
	return ""
}
