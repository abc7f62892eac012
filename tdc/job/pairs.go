package job

import (
	"io"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// views takes pairs of angles at which the crown was seen at the same place.
func (d *decoder) views(into *[]evidence.View) func(value) error {
	const example = `{ before = 351.9, after = 2.9, turn = "forward" }`
	return func(v value) error {
		return v.each("expected a list such as ["+example+"]", func(item value) error {
			if item.kind != tableKind {
				return item.wrong("expected %s", example)
			}
			pair := evidence.View{Turn: evidence.Forward}
			err := item.table.read(
				field{"before", d.protractor(&pair.Before)},
				field{"after", d.protractor(&pair.After)},
				field{"turn", either(&pair.Turn, "forward", evidence.Forward, "backward", evidence.Backward)},
			)
			switch {
			case err != nil:
				return err
			case !item.table.has("before"):
				return item.table.missing("before", example)
			case !item.table.has("after"):
				return item.table.missing("after", example)
			}
			*into = append(*into, pair)
			return nil
		})
	}
}

// stopsFile reads the contact angles of a CSV file: a header row rising,falling
// and a pair a row.
func (d *decoder) stopsFile(into *[]evidence.Stop, v value) error {
	var file string
	if err := name(&file)(v); err != nil {
		return err
	}
	data, err := d.open(file)
	if err != nil {
		return v.wrong("%v", err)
	}
	path := folderOf(d.job.File).path(file)
	if data, err = plainText(path, newlines(data)); err != nil {
		return err
	}
	*into, err = readStops(newSheet(path, data), d.job.Setup.Protractor)
	return err
}

// readStops reads the rows of a stops file.
func readStops(s *sheet, p evidence.Protractor) ([]evidence.Stop, error) {
	const expected = "expected a header row rising,falling and below it a pair of contact angles a row"
	header, err := s.next()
	switch {
	case err == io.EOF:
		return nil, s.at(1, 1, expected)
	case err != nil:
		return nil, err
	case len(header) < 2 || header[0] != "rising" || header[1] != "falling":
		return nil, s.wrong(0, "%s: %s", quoted(header[0]), expected)
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
		case len(stops) == mostReadings:
			return nil, s.wrong(0, "more than 3,000 stops: expected what somebody read by hand")
		}
		var stop evidence.Stop
		for i, into := range []*geometry.Angle{&stop.Rising, &stop.Falling} {
			written, err := parseAngle(row[i])
			if err == nil {
				*into, err = p.Crank(written)
			}
			if err != nil {
				return nil, s.wrong(i, "%s %s: %v", header[i], quoted(row[i]), err)
			}
		}
		stops = append(stops, stop)
	}
}
