package bench

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"time"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
	"evendrop/tdc/mark"
)

// paper is a job's files in memory: a file system to read a job from, and what a session
// writes into. What is in it is never changed in place.
type paper struct {
	files   map[string][]byte // by names as fs.ValidPath has them
	jobFile string
	unit    string // of the sheets
	setup   evidence.Setup
	changed map[string]bool // since they were asked for last
}

// Open opens a file to be read.
func (p *paper) Open(name string) (fs.File, error) {
	data, there := p.files[name]
	if !there {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &leaf{bytes.NewReader(data), name}, nil
}

// leaf is a file that is read.
type leaf struct {
	*bytes.Reader
	name string
}

func (l *leaf) Stat() (fs.FileInfo, error) { return l, nil }
func (l *leaf) Close() error               { return nil }
func (l *leaf) Name() string               { return l.name }
func (l *leaf) Mode() fs.FileMode          { return 0o600 }
func (l *leaf) ModTime() time.Time         { return time.Time{} }
func (l *leaf) IsDir() bool                { return false }
func (l *leaf) Sys() any                   { return nil }

// write puts a file's bytes in the place of those that it had.
func (p *paper) write(name string, data []byte) {
	p.files[name] = data
	p.changed[name] = true
}

// news is the files that were written since it was asked last.
func (p *paper) news() (list []File) {
	for _, name := range slices.Sorted(maps.Keys(p.changed)) {
		list = append(list, filed(name, p.files[name]))
	}
	p.changed = map[string]bool{}
	return list
}

// read is the job that the files make, whose readings may still have to be taken.
func (p *paper) read() (job.Job, error) {
	j, err := job.OpenBlankFS(p, p.jobFile)
	if err == nil {
		if of := mark.Check(j.Drive, j.Marks); of != nil {
			err = j.Locate(of)
		}
	}
	return j, err
}

// Amend changes the job file, and is the job then. What would make no job of it is an
// *Error, and the file stays as it was.
func (p *paper) Amend(edit amend.Edit) (job.Job, error) {
	after, err := edit(bytes.Clone(p.files[p.jobFile]))
	if err != nil {
		return job.Job{}, source.Of(p.jobFile, err)
	}
	if len(after) > source.Most {
		return job.Job{}, source.Of(p.jobFile, errors.New("would become larger than 1 MB: nothing was written"))
	}
	next := *p
	next.files = maps.Clone(p.files)
	next.files[p.jobFile] = after
	j, err := next.read()
	if err == nil {
		p.write(p.jobFile, after)
	}
	return j, err
}

// Sheet is a file of readings or lifts; it is made where there is none.
func (p *paper) Sheet(file string, kind sheet.Kind) (session.Store, string, error) {
	name := filepath.ToSlash(file)
	if !fs.ValidPath(name) {
		return nil, "", source.Of(file, errors.New("leads out of the job's folder: name a file in it"))
	}
	if _, there := p.files[name]; !there {
		p.write(name, []byte(kind.NewHeader()))
	}
	return &book{of: p, name: name, kind: kind}, "", nil
}

// Photo is a picture in the job's folder. An error says in words what is wrong with it.
func (p *paper) Photo(name string) (record.Picture, error) {
	data, there := p.files[path.Clean(name)]
	switch {
	case !there:
		return record.Picture{}, errors.New("is not in the job's folder: put it there first")
	case len(data) > record.MostBytes:
		return record.Picture{}, errors.New(record.TooLarge)
	}
	return record.Read(data)
}

// pictures is photos with their pictures, which a job whose readings are still to be taken
// is opened without.
func (p *paper) pictures(photos []record.Photo) ([]record.Photo, error) {
	photos = slices.Clone(photos)
	for i := range photos {
		picture, err := p.Photo(photos[i].File)
		if err != nil {
			return nil, source.Of(photos[i].File, err)
		}
		photos[i].Picture = picture
	}
	return photos, nil
}

// book is one of those sheets, as a session keeps readings in it.
type book struct {
	of   *paper
	name string
	kind sheet.Kind
}

// Readings are those that it holds.
func (b *book) Readings() ([]evidence.Reading, error) { return b.readings(b.of.files[b.name]) }

func (b *book) readings(data []byte) ([]evidence.Reading, error) {
	return b.kind.Read(b.name, data, b.of.setup, b.of.unit)
}

// page is the sheet taken apart.
func (b *book) page() (sheet.Page, error) {
	return sheet.NewPage(b.name, b.of.files[b.name], b.kind, b.of.unit)
}

// keep writes a page that reads well, and is its readings.
func (b *book) keep(p sheet.Page) ([]evidence.Reading, error) {
	data := p.Data()
	if len(data) > source.Most {
		return nil, source.Of(b.name, errors.New("would become larger than 1 MB: nothing was written"))
	}
	readings, err := b.readings(data)
	if err == nil {
		b.of.write(b.name, data)
	}
	return readings, err
}

// Add keeps a reading below the others, and is all of them.
func (b *book) Add(e sheet.Entry) ([]evidence.Reading, error) {
	p, err := b.page()
	if err != nil {
		return nil, err
	}
	p.Add(e)
	return b.keep(p)
}

// Remark keeps a comment below the readings.
func (b *book) Remark(text string) error {
	p, err := b.page()
	if err != nil {
		return err
	}
	p.Put("# " + text + "\n")
	_, err = b.keep(p)
	return err
}

// Correct puts readings right, and is all of them then.
func (b *book) Correct(c sheet.Correction) (done sheet.Corrected, readings []evidence.Reading, err error) {
	before, err := b.Readings()
	if err != nil {
		return done, nil, err
	}
	p, err := b.page()
	if err != nil {
		return done, nil, err
	}
	if done, err = p.Correct(c, before); err != nil {
		return sheet.Corrected{}, before, err
	}
	after, err := b.readings(p.Data())
	if err != nil {
		return sheet.Corrected{}, nil, err
	}
	if done, err = done.Found(c, after); err != nil {
		return sheet.Corrected{}, before, err
	}
	readings, err = b.keep(p)
	return done, readings, err
}

// TakeAsIs, News and Lost are of files that others write too: nobody does here.
func (b *book) TakeAsIs()    {}
func (b *book) News() string { return "" }
func (b *book) Lost() int    { return 0 }

var (
	_ session.Files = (*paper)(nil)
	_ session.Store = (*book)(nil)
	_ io.ReaderAt   = (*leaf)(nil)
)

// newPaper is a job's files that make a job, and the job.
func newPaper(files map[string][]byte, jobFile string) (*paper, job.Job, error) {
	p := &paper{files: files, jobFile: jobFile, changed: map[string]bool{}}
	if _, there := files[jobFile]; !there {
		return nil, job.Job{}, fmt.Errorf("there is no %s among the files: take those of one job", jobFile)
	}
	j, err := p.read()
	p.unit, p.setup = j.Unit, j.Setup
	return p, j, err
}
