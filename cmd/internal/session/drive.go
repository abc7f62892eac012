package session

import (
	"errors"
	"slices"
	"strings"

	"evendrop/cmd/internal/session/marking"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/toml"
)

// errJoints is a drive that cannot be said in a word.
var errJoints = errors.New("this job lists its joints one by one: change how the cams are driven there, in the job file")

// drive takes how the cams are driven, also where that was said before.
func (s *Session) drive(rest string) (do func() error, err error) {
	if len(s.Job.Drive.Joints) > 0 {
		return nil, errJoints
	}
	f, err := marking.Again(rest, s.Job)
	return func() error {
		return s.ask(&questions{asking: f, of: "drive", left: "The drive is left as it was.", then: func() error { return s.keepDrive(f) }})
	}, err
}

// keepDrive writes how the cams are driven, and what sits elsewhere by that, into the job file.
func (s *Session) keepDrive(f marking.Drive) error {
	now, then := f.Driving()
	if now.Layout == then.Layout && now.Sprocket == then.Sprocket {
		s.tell("That is what the job says already: the drive is left as it was.")
		return nil
	}
	if i := slices.IndexFunc(then.Placed, marking.Placed.AgainstItself); i >= 0 {
		s.bad++
		s.tell("The drive is left as it was: with it %s would be measured against the part that it is on. Take that mark back first, or correct it in the job file.", then.Placed[i].Name)
		return nil
	}
	what := "the cams are driven as " + strings.Trim(string(then.Layout), `"`)
	if then.Sprocket != "" {
		what += ", with " + string(then.Sprocket) + " teeth on the crank"
	}
	if err := s.keep(&amended{s, what, driven(now, then), driven(then, now)}, what+"."); err != nil {
		return err
	}
	s.judged()
	return nil
}

// driven is the edit from one drive to another.
func driven(from, to marking.Driving) amend.Edit {
	var keys []amend.Key
	for _, k := range []struct {
		name     string
		from, to toml.Literal
	}{{"layout", from.Layout, to.Layout}, {"crank_sprocket", from.Sprocket, to.Sprocket}} {
		if k.from != k.to {
			keys = append(keys, amend.Key{Name: k.name, Value: k.to})
		}
	}
	edits := []amend.Edit{amend.Table("drive", keys...)}
	for i, p := range to.Placed {
		edits = append(edits, placed(from.Placed[i], p))
	}
	return amend.Together(edits...)
}

// placed is the edit that puts a mark or a lobe where it sits on another drive.
func placed(from, to marking.Placed) amend.Edit {
	keys := []amend.Key{{Name: "on", Value: toml.Quote(to.On)}, {Name: "against", Value: toml.Quote(to.Against)}}
	keys = slices.DeleteFunc(keys, func(k amend.Key) bool {
		return k.Name == "on" && from.On == to.On || k.Name == "against" && from.Against == to.Against
	})
	return amend.All(to.Table, to.Name, keys...)
}
