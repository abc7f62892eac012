package draw

import (
	"fmt"
	"regexp"
	"strings"
)

// part is what Moved began, with no more than groups of words in it.
var part = regexp.MustCompile(`<g transform="translate\(([^ ]*) ([^)]*)\)">(` + flat + `(?:<g class="[^"]*">` + flat + `</g>` + flat + `)*)</g>`)

// flat is any text and elements but groups.
const flat = `(?:[^<]|<[^/g]|</[^g])*`

// Shared is a page on which parts of pictures that are alike are written once: the first
// where it stands, under a name, and every other one as its use (SVG2 5.6, from memory),
// whichever picture it is in.
func Shared(page string) string {
	all := part.FindAllStringSubmatchIndex(page, -1)
	times := map[string]int{}
	for _, m := range all {
		times[page[m[6]:m[7]]]++
	}
	var out strings.Builder
	names, done := map[string]string{}, 0
	for _, m := range all {
		x, y, what := page[m[2]:m[3]], page[m[4]:m[5]], page[m[6]:m[7]]
		if times[what] == 1 {
			continue
		}
		out.WriteString(page[done:m[0]])
		done = m[1]
		if name, is := names[what]; is {
			fmt.Fprintf(&out, `<use href="#%s"%s%s/>`, name, placed("x", x), placed("y", y))
			continue
		}
		names[what] = fmt.Sprintf("p%d", len(names)+1)
		out.WriteString(moved(x, y, named(names[what], what)))
	}
	return out.String() + page[done:]
}

// named is a part as others may use it. In use it is styled by itself, so that one with
// classes says that it is of a picture (.ed).
func named(name, what string) string {
	of := ""
	if strings.Contains(what, `class="`) {
		of = class("ed")
	}
	return fmt.Sprintf(`<g%s id="%s">%s</g>`, of, name, what)
}

// moved is a part at a place.
func moved(x, y, what string) string {
	if x == "0" && y == "0" {
		return what
	}
	return fmt.Sprintf(`<g transform="translate(%s %s)">%s</g>`, x, y, what)
}

// placed is the attribute of a place or size; nothing of zero, which is what it is without.
func placed(name, value string) string {
	if value == "0" {
		return ""
	}
	return fmt.Sprintf(` %s="%s"`, name, value)
}
