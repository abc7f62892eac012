package capture

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/wheel/fault"
)

// resolve turns columns asked for into indices from 0. Headings are looked for in
// the first line that has all of them.
func resolve(lines [][]byte, separator byte, wanted []string) ([]int, bool) {
	columns, ok := under(nil, wanted)
	for i := 0; i < len(lines) && !ok; i++ {
		columns, ok = under(headings(lines[i], separator), wanted)
	}
	return columns, ok
}

// under are the columns asked for by their numbers, or by their headings among cells.
func under(cells, wanted []string) (columns []int, ok bool) {
	for _, w := range wanted {
		at := headed(cells, w)
		if n, err := strconv.Atoi(w); err == nil && n >= 1 && n <= MostColumns {
			at = n - 1
		}
		columns = append(columns, at)
	}
	return columns, !slices.Contains(columns, -1)
}

// headed is the column with a heading, which may have its unit behind it in brackets, as
// "Crank (V)" has; -1 where there is none, or where several have it but for their units.
func headed(cells []string, wanted string) int {
	if at := slices.IndexFunc(cells, func(c string) bool { return strings.EqualFold(c, wanted) }); at >= 0 {
		return at
	}
	at := -1
	for i, c := range cells {
		name, _, _ := strings.Cut(strings.ReplaceAll(c, "[", "("), "(")
		if !strings.EqualFold(strings.TrimSpace(name), wanted) || wanted == "" {
			continue
		}
		if at >= 0 {
			return -1
		}
		at = i
	}
	return at
}

// noHeading names a heading that was asked for and is in no line beside the others,
// or beside anything that reads as headings; nil where columns go by numbers.
func noHeading(lines [][]byte, q Request) error {
	for _, separator := range separators {
		for i, line := range lines {
			cells := headings(line, separator)
			if len(cells) < len(q.columns()) || slices.ContainsFunc(cells, isNumber) {
				continue
			}
			for _, wanted := range q.columns() {
				_, err := strconv.Atoi(wanted)
				if err != nil && headed(cells, wanted) < 0 {
					return &fault.Fault{Line: i + 1, Problem: fmt.Sprintf("no column is headed %q: expected one of %s, or a column's number", wanted, strings.Join(cells, ", "))}
				}
			}
		}
	}
	return nil
}

func isNumber(text string) bool {
	_, n := number([]byte(text), '.')
	_, m := number([]byte(text), ',')
	return max(n, m) > 0 && max(n, m) == len(text)
}

// MostColumns is more than any scope has.
const MostColumns = 256

// headings are a line's cells as text.
func headings(line []byte, separator byte) []string {
	var out []string
	for rest := line; ; {
		n := cellLength(rest, separator)
		out = append(out, strings.Trim(strings.ToValidUTF8(string(rest[:n]), "?"), " \"\r"))
		if n >= len(rest) {
			return out
		}
		rest = rest[n+1:]
	}
}

// cellLength is the length of the cell that b begins with.
func cellLength(b []byte, separator byte) int {
	if len(b) > 0 && b[0] == '"' {
		if end := bytes.IndexByte(b[1:], '"'); end >= 0 {
			if n := bytes.IndexByte(b[end+2:], separator); n >= 0 {
				return end + 2 + n
			}
			return len(b)
		}
	}
	if n := bytes.IndexByte(b, separator); n >= 0 {
		return n
	}
	return len(b)
}
