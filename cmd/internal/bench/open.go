package bench

import (
	"cmp"
	"encoding/base64"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/planning"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/session"
	"evendrop/cmd/internal/session/standing"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/archive"
)

// hello is what is shown before any job is open.
func (c *Core) hello(Request) (Response, error) {
	return Response{Program: &Program{Name: "evendrop", Format: 1, Version: c.Version}, Cautions: cautions(), Help: session.Help}, nil
}

// cautions are those of the command.
func cautions() *Cautions {
	all := &Cautions{Title: "Before you turn an engine", Line: caution.Line, Ask: "Read, and will you keep to them?"}
	for _, one := range caution.List {
		all.List = append(all.List, Caution{Hazard: one.Hazard, Short: one.Short, Advice: one.Advice})
	}
	return all
}

// openJob opens a job of files, or of a zip.
func (c *Core) openJob(r Request) (Response, error) {
	jobFile := cmp.Or(r.Name, job.FileName)
	var files map[string][]byte
	var err error
	switch {
	case r.Zip != "" && len(r.Files) > 0:
		return Response{}, errors.New("a job is opened of its files or of a zip, not of both")
	case r.Zip != "":
		files, err = unzipped(r.Zip, jobFile)
	default:
		files, err = taken(r.Files)
	}
	if err != nil {
		return Response{}, err
	}
	return c.sitDown(files, jobFile, r.Cylinder, r.Zip != "")
}

// sitDown begins a sitting with a job's files, which are new to the page or are not. A job
// that cannot be opened leaves the one that is.
func (c *Core) sitDown(files map[string][]byte, jobFile string, cylinder int, fresh bool) (Response, error) {
	p, j, err := newPaper(files, jobFile)
	if err != nil {
		return Response{}, err
	}
	if cylinder > 0 && !slices.ContainsFunc(j.Cylinders, func(c evidence.Cylinder) bool { return c.Number == cylinder }) {
		return Response{}, fmt.Errorf("the job has no cylinder %d", cylinder)
	}
	s := &session.Session{Job: j, Number: cylinder, Files: p, Ground: planning.Ground(j, false, 0), Width: standing.Unbroken, Patient: true}
	said, err := s.Open()
	if err != nil {
		return Response{}, err
	}
	if fresh {
		for name := range maps.Keys(files) {
			p.changed[name] = true
		}
	}
	c.open = &sitting{Session: s, paper: p}
	c.revision++
	out := c.stands(said)
	out.Cautions = cautions()
	return out, nil
}

// stands is where the job stands, with what was said and the files that changed.
func (c *Core) stands(said []session.Said) Response {
	s := c.open
	out := Response{Job: s.job(), Said: shownSaid(said), Changed: s.paper.news(), State: s.state()}
	legibly(out.Job, out.Said, out.State)
	return out
}

// typeLine obeys a line.
func (c *Core) typeLine(r Request) (Response, error) {
	if len(r.Line) > longestLine || strings.ContainsAny(r.Line, "\r\n") {
		return Response{}, errors.New("type one line, of at most 1,000 characters")
	}
	said, ended, err := c.open.Obey(r.Line)
	c.revision++
	out := c.stands(said)
	out.Ended = ended
	return out, err
}

// longestLine is more than anybody types, in bytes.
const longestLine = 4_000

// stateOf is where the job stands, once more.
func (c *Core) stateOf(Request) (Response, error) { return c.stands(nil), nil }

// attach puts files into the job's folder.
func (c *Core) attach(r Request) (Response, error) {
	files, err := taken(r.Files)
	if err != nil {
		return Response{}, err
	}
	p := c.open.paper
	size := 0
	for _, data := range p.files {
		size += len(data)
	}
	for name, data := range files {
		if _, there := p.files[name]; there {
			return Response{}, fmt.Errorf("%q: is in the job already: take another name", name)
		}
		size += len(data)
	}
	if len(p.files)+len(files) > archive.MostFiles || size > archive.MostBytes {
		return Response{}, errors.New("a job has at most 1,000 files, of 64 MB together")
	}
	for name, data := range files {
		p.write(name, data)
	}
	c.revision++
	return c.stands(nil), nil
}

// export is the job's files as a zip.
func (c *Core) export(Request) (Response, error) {
	packed, err := zipped(c.open.paper.files)
	return Response{Zip: base64.StdEncoding.EncodeToString(packed)}, err
}

// shownSaid is what a session said, in paragraphs.
func shownSaid(said []session.Said) (list []Said) {
	kinds := map[session.Kind]string{session.Remark: "remark", session.AsItStands: "lines", session.Answer: "answer"}
	for _, s := range said {
		list = append(list, Said{kinds[s.Kind], strings.Split(strings.TrimRight(s.Text, "\n"), "\n"), s.News})
	}
	return list
}
