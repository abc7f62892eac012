package flags

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/form"
)

// line is a line of the usage text: a flag, a heading over flags, or a remark.
type line struct {
	flag          *pflag.Flag
	heading, note string
}

// Heading sets a heading over the flags that follow.
func (s *Set) Heading(text string) { s.lines = append(s.lines, line{heading: text}) }

// Note sets text below the flags so far, as it stands.
func (s *Set) Note(text string) { s.lines = append(s.lines, line{note: text}) }

// From is the names of the flags from a heading on.
func (s *Set) From(heading string) []string {
	from := slices.IndexFunc(s.lines, func(l line) bool { return l.heading == heading })
	var names []string
	for _, l := range s.lines[from+1:] {
		if l.flag != nil {
			names = append(names, l.flag.Name)
		}
	}
	return names
}

const helpColumn = 28

// Usage is the usage text: how the command is typed, what it does, and its flags.
func (s *Set) Usage() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n", s.synopsis, s.about)
	for i, l := range s.lines {
		switch {
		case l.heading != "":
			fmt.Fprintf(&b, "\n%s:\n", l.heading)
		case l.note != "":
			fmt.Fprintf(&b, "\n%s\n", l.note)
		default:
			if i == 0 || s.lines[i-1].note != "" {
				b.WriteString("\n")
			}
			b.WriteString(l.row())
		}
	}
	return b.String()
}

// row is a flag, what stands behind it, and what it is for.
func (l line) row() string {
	head := strings.TrimRight("  --"+l.flag.Name+" "+l.flag.Value.Type(), " ")
	if l.flag.Usage == "" {
		return head + "\n"
	}
	indent := strings.Repeat(" ", helpColumn)
	help := strings.ReplaceAll(form.Wrap(l.flag.Usage, form.Widest-helpColumn), "\n", "\n"+indent)
	if len(head) >= helpColumn {
		return head + "\n" + indent + help + "\n"
	}
	return fmt.Sprintf("%-*s%s\n", helpColumn, head, help)
}
