package source

import "strings"

// Instead says which of the names was meant, or all of them.
func Instead(name string, names []string) string {
	if near, ok := nearest(name, names); ok {
		return `did you mean "` + near + `"?`
	}
	return "expected " + OrList(names)
}

// nearest is the one of names that a slip of the fingers may have turned into
// name: one letter is wrong, or at most a third of them.
func nearest(name string, names []string) (string, bool) {
	if len(name) > 40 {
		return "", false
	}
	best, least := "", max(1, len(name)/3)+1
	for _, candidate := range names {
		if n := edits(strings.ToLower(name), candidate); n < least {
			best, least = candidate, n
		}
	}
	return best, best != ""
}

// edits is how many letters must be put in, left out, changed, or swapped with
// their neighbour to turn a into b.
func edits(a, b string) int {
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+differ(a[i-1], b[j-1]))
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}

func differ(a, b byte) int {
	if a == b {
		return 0
	}
	return 1
}

// OrList is "a, b or c".
func OrList(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " or " + words[n]
}
