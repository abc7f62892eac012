package notebook

import (
	"slices"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// Correct puts readings right, on the disk, and is what came of it and all of them. An
// error that is sheet.ErrGone is that another program changed what it is about; the file
// stays as it was with any error.
func (n *Notebook) Correct(c sheet.Correction) (done sheet.Corrected, readings []evidence.Reading, err error) {
	var bad error
	readings, err = n.change(func(p *sheet.Page, before []evidence.Reading) (appended, finished bool) {
		done, bad = n.corrected(p, c, before)
		return false, bad != nil
	}, nil)
	switch {
	case err != nil:
		return sheet.Corrected{}, nil, err
	case bad != nil:
		return sheet.Corrected{}, readings, n.wrong(bad)
	}
	n.keepsCorrected(done)
	return done, readings, nil
}

// corrected puts a page right, and reads what it holds then.
func (n *Notebook) corrected(p *sheet.Page, c sheet.Correction, before []evidence.Reading) (sheet.Corrected, error) {
	done, err := p.Correct(c, before)
	if err != nil {
		return done, err
	}
	after, err := n.readings(p.Data())
	if err != nil {
		return done, err
	}
	return done.Found(c, after)
}

// keepsCorrected takes down what is kept here by a correction, and what no longer.
func (n *Notebook) keepsCorrected(done sheet.Corrected) {
	if done.Struck != nil {
		was := withoutLine(done.Struck.Reading)
		if i := slices.IndexFunc(n.kept, func(k kept) bool { return k.reading == was }); i >= 0 {
			n.kept = slices.Delete(n.kept, i, i+1)
		}
	}
	if done.Counts != nil {
		n.kept = append(n.kept, kept{done.Row, withoutLine(*done.Counts)})
	}
}
