package report

import "evendrop/tdc/mark"

// Page is the answer of the main job for paper and a browser.
type Page struct {
	Find
	Diagnosis mark.Diagnosis // of the marks
	Version   string         // of the program
}
