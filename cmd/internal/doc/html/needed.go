package html

import (
	"regexp"
	"slices"
	"strings"
)

var (
	rule      = regexp.MustCompile(`[^{}]+\{[^{}]*\}`)
	classes   = regexp.MustCompile(`class="([^"]*)"`)
	ofClasses = regexp.MustCompile(`\.([a-z]\w*)`)
)

// needed is the rules of a style sheet that a page may need: those whose classes it has, and
// those with a selector in brackets, such as :is(p,ul), which are not read.
func needed(style, page string) string {
	has := map[string]bool{}
	for _, m := range classes.FindAllStringSubmatch(page, -1) {
		for class := range strings.FieldsSeq(m[1]) {
			has[class] = true
		}
	}
	lacking := func(selector string) bool {
		return slices.ContainsFunc(ofClasses.FindAllStringSubmatch(selector, -1), func(m []string) bool { return !has[m[1]] })
	}
	return rule.ReplaceAllStringFunc(style, func(whole string) string {
		selectors, body, _ := strings.Cut(whole, "{")
		if strings.Contains(selectors, "(") {
			return whole
		}
		if kept := slices.DeleteFunc(strings.Split(selectors, ","), lacking); len(kept) > 0 {
			return strings.Join(kept, ",") + "{" + body
		}
		return ""
	})
}
