// Package crank is a stub.
package crank

import "evendrop/cmd/internal/doc"

type Picture struct {
	Title, Description string
	Marks              []Mark
}
type Mark struct {
	Name, Body       string
	Off, Half, Limit float64
	State            doc.State
	Suspect          bool
	Says             string
	HasPlace         bool
	Nominal          float64
	Was              *Was
}
type Was struct {
	Off, Half float64
	State     doc.State
	Says      string
}

func (Picture) SVG() ([]byte, error) { return []byte(`<svg viewBox="0 0 460 400" role="img"></svg>`), nil }
func (Picture) Caption() string      { return "The crank from the front." }
