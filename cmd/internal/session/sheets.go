package session

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/toml"
)

// Files are the files of a job, as they are kept.
type Files interface {
	// Amend changes the job file, and is the job then.
	Amend(amend.Edit) (job.Job, error)
	// Sheet is a cylinder's readings file or a lobe's, as the job names it, and what opening
	// it had to say; it is made where there is none. It is opened once.
	Sheet(file string, kind sheet.Kind) (store Store, says string, err error)
	// Photo is a picture in the job's folder, as the job would have it. An error says in words
	// what is wrong with it.
	Photo(name string) (record.Picture, error)
}

// beside is a file in the job file's folder.
func (s *Session) beside(name string) string { return filepath.Join(filepath.Dir(s.Job.File), name) }

// openFirst opens the readings of the cylinder that the sitting begins with.
func (s *Session) openFirst() error {
	if s.Number == 0 {
		s.Number = s.Job.Cylinders[0].Number
	}
	p, err := s.openCylinder(s.Number)
	s.Store, s.File = p.Store, p.file
	return err
}

// stores are the sheets that were opened.
func (s *Session) stores() (list []Store) {
	for _, p := range s.pages {
		list = append(list, p.Store)
	}
	if len(list) == 0 && s.Store != nil {
		return []Store{s.Store}
	}
	return list
}

// page is a sheet that was written into.
type page struct {
	Store
	file string
}

// open opens a sheet, once.
func (s *Session) open(file string, kind sheet.Kind) (page, error) {
	if i := slices.IndexFunc(s.pages, func(p page) bool { return p.file == file }); i >= 0 {
		return s.pages[i], nil
	}
	store, says, err := s.Files.Sheet(file, kind)
	if err != nil {
		return page{}, err
	}
	if says != "" {
		s.tell("%s", says)
	}
	s.pages = append(s.pages, page{store, file})
	return s.pages[len(s.pages)-1], nil
}

// goToCylinder takes the number of the cylinder that is read from here on, and of one that
// the job does not have its throw.
func (s *Session) goToCylinder(rest string) (do func() error, err error) {
	usage := errors.New("cylinder goes with its number: type for example cylinder 3. For a new one its throw may follow, in crank degrees after cylinder 1: cylinder 3 240")
	fields := slices.DeleteFunc(strings.Fields(rest), func(word string) bool { // cylinder 3 at 240 deg
		return slices.Contains([]string{"at", "throw", "deg"}, strings.ToLower(word))
	})
	if len(fields) == 0 || len(fields) > 2 {
		return nil, usage
	}
	const most = 99 // more than any engine has
	n, err := strconv.Atoi(fields[0])
	if err != nil || n < 1 || n > most {
		return nil, usage
	}
	has := slices.ContainsFunc(s.Job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == n })
	switch {
	case has && len(fields) == 2 && !s.hasThrow(n, fields[1]):
		return nil, fmt.Errorf("cylinder %d is in the job already, so its throw is: type cylinder %d alone, or change the throw in the job file", n, n)
	case has || n == 1:
		return func() error { return s.readCylinder(n) }, nil
	}
	t := &typed.Throw{Number: n}
	if len(fields) == 2 {
		if err := t.Take(fields[1]); err != nil {
			return nil, err
		}
	}
	return func() error {
		return s.ask(&questions{asking: t, of: "cylinder", then: func() error { return s.addCylinder(t) }})
	}, nil
}

// hasThrow tells whether a cylinder of the job has a throw, as it is typed.
func (s *Session) hasThrow(n int, text string) bool {
	t := &typed.Throw{}
	i := slices.IndexFunc(s.Job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == n })
	return t.Take(text) == nil && string(t.Degrees) == string(toml.Number(s.Job.Cylinders[i].Throw.Degrees()))
}

// addCylinder writes a cylinder into the job file, once its readings file is there.
func (s *Session) addCylinder(t *typed.Throw) error {
	file := fmt.Sprintf("cylinder-%d.csv", t.Number)
	if _, err := s.open(s.beside(file), sheet.Depths); err != nil {
		return err
	}
	var w toml.Writer
	w.Next("cylinder")
	w.Key("number", toml.Literal(strconv.Itoa(t.Number)), "")
	w.Key("throw", t.Degrees, "")
	w.Key("readings", toml.Quote(file), "")
	if err := s.amend(amend.With(w.Bytes())); err != nil {
		return err
	}
	return s.readCylinder(t.Number)
}

// openCylinder opens a cylinder's readings file; one that names none gets one.
func (s *Session) openCylinder(n int) (page, error) {
	file, named := s.Job.ReadingsFiles[n]
	if !named {
		file = s.beside(fmt.Sprintf("cylinder-%d.csv", n))
	}
	p, err := s.open(file, sheet.Depths)
	if err != nil || named {
		return p, err
	}
	s.Job, err = s.Files.Amend(amend.Of(n, "readings", toml.Quote(filepath.Base(file))))
	return p, err
}

// readCylinder goes on with a cylinder's readings.
func (s *Session) readCylinder(n int) error {
	p, err := s.openCylinder(n)
	if err != nil {
		return err
	}
	readings, err := p.Readings()
	if err != nil {
		return err
	}
	s.keepRead()
	s.lobe = ""
	s.Store, s.Number, s.File = p.Store, n, p.file
	s.turn = lastTurn(readings)
	s.take(readings)
	s.tell("Readings are of cylinder %d from here on, turning %s.", n, s.turn)
	s.answer(s.state.Standing())
	return nil
}

// lastTurn is the way that the crank was turned to the last reading; forward without any.
func lastTurn(readings []evidence.Reading) evidence.TurnDirection {
	if n := len(readings); n > 0 {
		return readings[n-1].Turn
	}
	return evidence.Forward
}

// backTo goes back to a cylinder, where another or a lobe is read.
func (s *Session) backTo(number int) error {
	if s.Number == number && s.lobe == "" {
		return nil
	}
	return s.readCylinder(number)
}

// keepRead takes what the cylinder at hand has into the job.
func (s *Session) keepRead() {
	s.Job.Cylinders = slices.Clone(s.Job.Cylinders)
	for i, c := range s.Job.Cylinders {
		if c.Number == s.Number {
			s.Job.Cylinders[i].Readings = s.state.Readings
		}
	}
}

// piston goes back from a lobe to the piston.
func (s *Session) piston(string) (do func() error, err error) {
	return func() error { return s.readCylinder(s.Number) }, nil
}
