package capture

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"evendrop/tdc/wheel/fault"
)

// longestLine is more than any row of a capture has.
const longestLine = 256 << 10

// rows reads a capture's rows of numbers.
type rows struct {
	in     *bufio.Reader
	layout layout
	slots  []int8 // by column: the value it goes to, or -1
	timed  bool
	line   int
	cut    bool // the last line ended in the middle
}

// newRows reads from in, which is at the file's beginning, if there is one.
func newRows(in *bufio.Reader, l layout, timed bool) *rows {
	r := &rows{in: in, layout: l, timed: timed, slots: slices.Repeat([]int8{-1}, slices.Max(l.columns)+1)}
	for i, c := range l.columns {
		r.slots[c] = int8(i)
	}
	return r
}

// all gives each row to take: its time, in the unit that it was counted in, and the
// channels, crank first, which are good until the next row.
func (r *rows) all(take func(stamp float64, channels []float64) error) error {
	values := make([]float64, len(r.layout.columns))
	channels := values
	if r.timed {
		channels = values[1:]
	}
	for {
		more, err := r.next(values)
		if err != nil || !more {
			return err
		}
		if err := take(values[0], channels); err != nil {
			return err
		}
	}
}

// next reads the next row that is not blank into values; false at the end.
func (r *rows) next(values []float64) (bool, error) {
	for {
		line, err := r.in.ReadSlice('\n')
		if errors.Is(err, bufio.ErrBufferFull) {
			return false, &fault.Fault{Line: r.line + 1, Problem: fmt.Sprintf("is longer than %d bytes: this is not a capture as CSV", longestLine)}
		}
		if err != nil && err != io.EOF {
			return false, err
		}
		if len(line) == 0 {
			return false, nil
		}
		r.line++
		if r.line <= r.layout.header {
			continue
		}
		state, column := r.parse(line, values)
		switch {
		case state == row:
			return true, nil
		case state == blank:
		case err == io.EOF: // written only in part
			r.cut = true
			return false, nil
		default:
			return false, r.fault(state, column, line)
		}
	}
}

type state int

// The states of a line; the last three are faults.
const (
	row state = iota
	blank
	tooShort
	noNumber
	noTime
)

// parse reads one line, and says in which column, from 0, it is at fault. A line
// with nothing in the columns asked for is blank.
func (r *rows) parse(line []byte, values []float64) (state, int) {
	line = withoutEnd(line)
	separator, point := r.layout.separator, r.layout.point
	found := 0
	i := 0
	for column, slot := range r.slots {
		if column > 0 {
			if i >= len(line) {
				return short(line), column
			}
			i++ // the separator
		}
		if slot < 0 {
			i += cellLength(line[i:], separator)
			continue
		}
		v, n := number(line[i:], point)
		if n == 0 || (i+n < len(line) && line[i+n] != separator) {
			n = cellLength(line[i:], separator)
			ok := false
			if v, ok = cell(line[i:i+n], point); !ok {
				return noNumber, column
			}
		}
		values[slot] = v
		i += n
		if v == v {
			found++
		}
	}
	switch {
	case found == 0:
		return blank, 0
	case r.timed && !finite(values[0]):
		return noTime, r.layout.columns[0]
	}
	return row, 0
}

// short is what a line with too few columns is: with nothing in them, blank.
func short(line []byte) state {
	if len(bytes.Trim(line, " \t,;\r\"")) == 0 {
		return blank
	}
	return tooShort
}

// fault puts a faulty line into words.
func (r *rows) fault(s state, column int, line []byte) error {
	switch s {
	case tooShort:
		return &fault.Fault{Line: r.line, Problem: fmt.Sprintf("has %d columns: expected at least %d", column, len(r.slots))}
	case noTime:
		return &fault.Fault{Line: r.line, Column: column + 1, Problem: "the time is missing: expected a number"}
	}
	text := headings(withoutEnd(line), r.layout.separator)[column]
	return &fault.Fault{Line: r.line, Column: column + 1, Problem: fmt.Sprintf("%.20q is not a number: expected one, or a word such as inf for a sample out of range", text)}
}

// withoutEnd is a line without its line end and blanks there.
func withoutEnd(line []byte) []byte {
	n := len(line)
	for n > 0 && (line[n-1] == '\n' || line[n-1] == '\r' || line[n-1] == ' ') {
		n-- // bytes.TrimRight takes a tenth longer for a whole capture
	}
	return line[:n]
}

func finite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }
