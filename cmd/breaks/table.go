package main

import (
	"cmp"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
)

// tally counts the breaks of one part of the program.
type tally struct{ broken, caught, said, saidCaught, open int }

func (t *tally) count(b Break, caught, known bool) {
	t.broken++
	if b.Said {
		t.said++
	}
	switch {
	case !known:
		t.open++
	case caught && b.Said:
		t.saidCaught++
		fallthrough
	case caught:
		t.caught++
	}
}

// table is for DEVELOPERS.md: what was broken and caught, by the package that was
// broken, and what escapes with its reason.
func table(p program, list []Break, kept results) (string, error) {
	parts, whole := map[string]*tally{}, &tally{}
	var escapes strings.Builder
	for _, b := range list {
		file, err := p.place(b)
		if err != nil {
			return "", err
		}
		part := path.Dir(file)
		if parts[part] == nil {
			parts[part] = &tally{}
		}
		result, known := kept.of(b)
		parts[part].count(b, result.Verdict != Escaped, known)
		whole.count(b, result.Verdict != Escaped, known)
		if known && result.Verdict == Escaped {
			fmt.Fprintf(&escapes, "- `%s`: %s: %s\n", part, b.Why, cmp.Or(b.Escapes, "no reason given"))
		}
	}
	var out strings.Builder
	out.WriteString("| part | broken | caught | of these said to the user | caught |\n| --- | --- | --- | --- | --- |\n")
	for _, part := range slices.Sorted(maps.Keys(parts)) {
		out.WriteString(row("`"+part+"`", parts[part]))
	}
	out.WriteString(row("all", whole))
	if whole.open > 0 {
		fmt.Fprintf(&out, "\n%d have not been tried since they were last edited.\n", whole.open)
	}
	if escapes.Len() > 0 {
		out.WriteString("\nWhat gets away:\n\n" + escapes.String())
	}
	return out.String(), nil
}

func row(name string, t *tally) string {
	return fmt.Sprintf("| %s | %d | %d | %d | %d |\n", name, t.broken, t.caught, t.said, t.saidCaught)
}
