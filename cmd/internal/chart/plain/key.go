package plain

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/words"
)

// printed is the plot with its axes and its key.
func (s *screen) printed(width int) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n", draw.Clean(s.Y.Label))
	labels := map[int]string{}
	for _, t := range s.y.Ticks {
		labels[int(math.Round(s.row(t)))] = s.y.Label(t)
	}
	for row, cells := range s.cells {
		tick := "|"
		if labels[row] != "" {
			tick = "+"
		}
		line := fmt.Sprintf("%*s %s%s", s.margin, labels[row], tick, string(cells))
		fmt.Fprintln(&out, strings.TrimRight(line, " "))
	}
	s.foot(&out)
	s.key(&out, width)
	return out.String()
}

// foot writes the axis under the plot with its numbers and what it counts.
func (s *screen) foot(out *strings.Builder) {
	axis := []rune(strings.Repeat("-", s.columns))
	numbers := []rune(strings.Repeat(" ", s.columns+8))
	free := 0
	for _, t := range s.x.Ticks {
		column, text := int(math.Round(s.column(t))), s.x.Label(t)
		if column < 0 || column >= s.columns {
			continue
		}
		axis[column] = '+'
		if at := max(0, column-len(text)/2); at >= free && at+len(text) <= s.columns+1 {
			copy(numbers[at:], []rune(text))
			free = at + len(text) + 1
		}
	}
	indent := strings.Repeat(" ", s.margin+2)
	fmt.Fprintf(out, "%s+%s\n", indent[1:], string(axis))
	fmt.Fprintf(out, "%s%s\n", indent, strings.TrimRight(string(numbers), " "))
	label := draw.Clean(s.X.Label)
	before := max(0, (s.columns-utf8.RuneCountInString(label))/2)
	fmt.Fprintf(out, "%s%s%s\n", indent, strings.Repeat(" ", before), label)
}

// key says what the letters and the shades are, a line each where there is much
// to say.
func (s *screen) key(out *strings.Builder, width int) {
	var says []string
	if len(s.Series) > 1 {
		for n, series := range s.Series {
			says = append(says, fmt.Sprintf("%c %s", s.letter(n), draw.Clean(series.Name)))
		}
		says = append(says, fmt.Sprintf("%c together", together))
	}
	for _, b := range s.Upright {
		says = append(says, ": "+draw.Clean(b.Label))
	}
	for _, b := range s.Level {
		says = append(says, "= "+draw.Clean(b.Label))
	}
	line := ""
	for _, item := range says {
		item = words.Cut(item, width)
		if line != "" && utf8.RuneCountInString(line)+3+utf8.RuneCountInString(item) > width {
			fmt.Fprintln(out, line)
			line = ""
		}
		if line != "" {
			line += "   "
		}
		line += item
	}
	if line != "" {
		fmt.Fprintln(out, line)
	}
}
