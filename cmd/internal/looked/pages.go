package looked

import (
	"path/filepath"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/answer/recheck"
	"evendrop/cmd/internal/scenes"
	"evendrop/tdc/job"
)

// Drawn is a page of a scene, as HTML.
type Drawn struct {
	Name string // of its file
	HTML []byte
}

// Draw writes a scene's files into a folder of its name, and draws its page; of a repair,
// the pages of either job and of both.
func Draw(s scenes.Scene, dir string) (pages []Drawn, err error) {
	if dir, err = s.Write(dir); err != nil {
		return nil, err
	}
	names := map[bool][]string{false: {scenes.JobFile}, true: {scenes.JobFile, scenes.AfterFile}}[s.Repair]
	var jobs []job.Job
	for i, name := range names {
		j, err := job.Open(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		html, err := found(j)
		if err != nil {
			return nil, err
		}
		jobs = append(jobs, j)
		pages = append(pages, Drawn{s.Name + []string{"", "-after"}[i], html})
	}
	if s.Repair {
		html, err := rechecked(jobs[0], jobs[1])
		if err != nil {
			return nil, err
		}
		pages = append(pages, Drawn{s.Name + "-recheck", html})
	}
	return pages, nil
}

// version stands on the pages.
const version = "evendrop"

// found is the page of find.
func found(j job.Job) ([]byte, error) {
	a, err := find.Against(j, "")
	if err != nil {
		return nil, err
	}
	return find.Page{Answer: a, Version: version}.HTML()
}

// rechecked is the page of recheck.
func rechecked(before, after job.Job) ([]byte, error) {
	a, err := recheck.Of(before, after)
	if err != nil {
		return nil, err
	}
	return a.Page(version)
}
