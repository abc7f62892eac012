package rehearse

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"

	"github.com/pelletier/go-toml/v2"

	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// In is a practice job kept in a folder, its answer in a file; "" for the folder's own.
func (p Practice) In(folder, answerFile string) Practice {
	if answerFile == "" {
		answerFile = answerIn(folder)
	}
	p.Folder, p.AnswerFile = folder, answerFile
	return p
}

func answerIn(folder string) string { return filepath.Join(folder, "answer.toml") }

// Write writes the job, its readings and the answer, and then says so: all or none. Old
// readings never stand beside a new answer, nor new ones beside an old answer. An error is
// of a place in which a file is that may not be overwritten, of a folder or file that
// cannot be written, or say's.
func (p Practice) Write(replace bool, say func() error) error {
	if err := p.apart(); err != nil {
		return err
	}
	answer, err := p.Answer()
	if err != nil {
		return err
	}
	files := p.Files()
	for _, f := range append(files, File{Path: p.AnswerFile, Marker: PracticeAnswer}) {
		if err := f.Free(replace); err != nil {
			return err
		}
	}
	var together disk.Together
	if err := together.MakeFolder(p.Folder); err != nil {
		return err
	}
	for _, f := range files {
		together.Write(f.Path, f.Data, replace)
	}
	together.WriteAfter(p.AnswerFile, answer, replace)
	return together.DoneWith(say)
}

// File is one that rehearse writes.
type File struct {
	Path   string
	Marker string // what it begins with; of a page, what stands in its head
	Data   []byte
}

// Files is the job and its readings, without the answer.
func (p Practice) Files() []File {
	list := []File{
		{filepath.Join(p.Folder, "job.toml"), jobFile, p.jobFile()},
		{filepath.Join(p.Folder, "cylinder-1.csv"), readingsFile, p.readingsFile()},
	}
	for _, l := range p.Job.Lobes {
		list = append(list, File{filepath.Join(p.Folder, l.File()), readingsFile, lobeFile(l)})
	}
	return list
}

// apart is an answer that is to be kept where the job itself is.
func (p Practice) apart() error {
	for _, f := range p.Files() {
		if filepath.Clean(p.AnswerFile) == filepath.Clean(f.Path) {
			return usage.Errorf("--answer %s: the job itself is written there: choose another name", p.AnswerFile)
		}
	}
	return nil
}

// Free refuses a place in which a file is, unless rehearse made that and it is to be
// overwritten.
func (f File) Free(replace bool) error {
	if _, err := os.Lstat(f.Path); err != nil {
		return nil
	}
	if !replace {
		return &source.Error{File: f.Path, Problem: "already exists: choose another folder, or type --replace to overwrite it"}
	}
	data, err := disk.ReadFile(f.Path, errors.New("not found"))
	if err != nil {
		return err
	}
	if !f.made(data) {
		return &source.Error{File: f.Path, Problem: "was not written by evendrop rehearse, so it was left as it is: choose another folder"}
	}
	return nil
}

// longestHead is more than a page has before its title, bytes.
const longestHead = 1 << 10

// made tells whether data is what rehearse writes in the file's place.
func (f File) made(data []byte) bool {
	switch f.Marker {
	case PracticeAnswer:
		_, err := readAnswer(data)
		return bytes.HasPrefix(data, []byte(f.Marker)) && err == nil
	case ClassPage:
		return bytes.Contains(data[:min(len(data), longestHead)], []byte(f.Marker))
	}
	return bytes.HasPrefix(data, []byte(f.Marker))
}

// Check marks a learner's TDC by the answer in a file; "" for the folder's own. An error is
// of an answer that cannot be read.
func Check(folder, file string, given geometry.Angle) (Rehearsal, error) {
	answer, err := kept(folder, file)
	if err != nil {
		return Rehearsal{}, err
	}
	return Rehearsal{Marked: answer.Mark(given)}, nil
}

// kept is the answer in a file; "" for the folder's own.
func kept(folder, file string) (practice.Answer, error) {
	if file == "" {
		file = ownAnswer(folder)
	}
	return Kept(file)
}

// TeacherOnly is the folder of a class's key, named so that nobody opens it by accident.
const TeacherOnly = "teacher-only"

// ownAnswer is where a folder's answer is kept: in it, or of one of a class in the class's key.
func ownAnswer(folder string) string {
	alone := answerIn(folder)
	whole, err := filepath.Abs(folder) // its name, where it was typed as "."
	if err != nil {
		return alone
	}
	ofClass := filepath.Join(filepath.Dir(whole), TeacherOnly, filepath.Base(whole)+".toml")
	if isFile(alone) || !isFile(ofClass) {
		return alone
	}
	return ofClass
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.IsDir()
}

// Kept is the answer in a file. An error is of a file that cannot be read, or is no answer.
func Kept(file string) (practice.Answer, error) {
	data, err := disk.ReadFile(file, errors.New("not found: make a practice job first, with evendrop rehearse DIR"))
	if err != nil {
		return practice.Answer{}, err
	}
	answer, err := readAnswer(data)
	if err != nil {
		return answer, &source.Error{File: file, Problem: err.Error()}
	}
	return answer, nil
}

// errNotOurs is a file in an answer's place.
var errNotOurs = errors.New("is not an answer that evendrop rehearse wrote: make the job again")

// longestAnswer is more than any answer that rehearse writes; a longer file could take
// the library that reads it a while.
const longestAnswer = 64 << 10

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
