package main

import (
	"cmp"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// A Result is what became of a break, and when.
type Result struct {
	Date    string // 2026-11-25
	Verdict Verdict
	Test    string // that caught it; "-": none, or a crash that names none
	Mark    string // of the break as it was then
}

// results are kept by the breaks' words.
type results map[string]Result

// resultsFile is kept beside the lists, a break a line: its date, verdict, mark, the
// test that caught it, and its words.
const resultsFile = "results.tsv"

func readResults(root string) (results, error) {
	text, err := os.ReadFile(filepath.Join(root, folder, resultsFile))
	if os.IsNotExist(err) {
		return results{}, nil
	}
	if err != nil {
		return nil, err
	}
	r := results{}
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if len(cells) != 5 {
			return nil, fmt.Errorf("%s: expected five columns: %s", resultsFile, line)
		}
		r[cells[4]] = Result{Date: cells[0], Verdict: Verdict(cells[1]), Mark: cells[2], Test: cells[3]}
	}
	return r, nil
}

// of is the result of a break that still holds: it has not been edited since.
func (r results) of(b Break) (Result, bool) {
	result, ok := r[b.Why]
	return result, ok && result.Mark == b.mark()
}

// write keeps the results in the order of the list; those of breaks that are listed
// no more are dropped.
func (r results) write(root string, list []Break) error {
	var out strings.Builder
	for _, b := range list {
		if result, ok := r.of(b); ok {
			fmt.Fprintf(&out, "%s\t%s\t%s\t%s\t%s\n", result.Date, result.Verdict, result.Mark, result.Test, b.Why)
		}
	}
	return os.WriteFile(filepath.Join(root, folder, resultsFile), []byte(out.String()), 0o644)
}

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
