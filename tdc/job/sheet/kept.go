package sheet

import "evendrop/tdc/evidence"

// Read reads a sheet that is written into at the bench, which may have no row yet; a lift is
// the depth of its reading. Whatever is wrong with the file is an *Error under name.
func (k Kind) Read(name string, data []byte, setup evidence.Setup, unit string) ([]evidence.Reading, error) {
	if Blank(name, data) {
		return nil, nil
	}
	if k == Depths {
		return ReadReadings(name, data, setup, unit)
	}
	lifts, err := ReadLifts(name, data, setup.Protractor, unit)
	if err != nil {
		return nil, err
	}
	readings := make([]evidence.Reading, len(lifts))
	for i, l := range lifts {
		readings[i] = evidence.Reading{Angle: l.Angle, Side: l.Side, Depth: l.Lift, Turn: l.Turn, File: l.File, Line: l.Line, Note: l.Note}
	}
	return readings, nil
}
