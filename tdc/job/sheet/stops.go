package sheet

import (
	"io"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/source"
)

// ReadStops reads a stops file: a header row rising,falling and a pair of contact angles
// a row. Whatever is wrong with the file is a *source.Error under name.
func ReadStops(name string, data []byte, p evidence.Protractor) ([]evidence.Stop, error) {
	const expected = "expected a header row rising,falling and below it a pair of contact angles a row"
	s, header, err := open(name, data, expected)
	switch {
	case err != nil:
		return nil, err
	case len(header) < 2 || header[0] != "rising" || header[1] != "falling":
		return nil, s.wrong(0, "%s: %s", source.Quoted(header[0]), expected)
	}
	var stops []evidence.Stop
	for {
		row, err := s.next()
		switch {
		case err == io.EOF && len(stops) == 0:
			return nil, s.at(len(s.lines), 1, expected)
		case err == io.EOF:
			return stops, nil
		case err != nil:
			return nil, err
		case len(row) != len(header):
			return nil, s.wrong(0, "%d fields under a header of %d: %s", len(row), len(header), expected)
		case len(stops) == MostReadings:
			return nil, s.wrong(0, "more than 3,000 stops: expected what somebody read by hand")
		}
		var stop evidence.Stop
		for i, into := range []*geometry.Angle{&stop.Rising, &stop.Falling} {
			written, err := measure.Angle(row[i])
			if err == nil {
				*into, err = p.Crank(written)
			}
			if err != nil {
				return nil, s.wrong(i, "%s %s: %v", header[i], source.Quoted(row[i]), err)
			}
		}
		stops = append(stops, stop)
	}
}
