package main

import (
	"html"
	"regexp"
)

var (
	unseen   = regexp.MustCompile(`(?s)<(style|script)[^>]*>.*?</(style|script)>|<!--.*?-->`)
	readOut  = regexp.MustCompile(`\b(?:aria-label|title|alt|placeholder)="([^"]*)"`)
	tag      = regexp.MustCompile(`(?s)<[/a-zA-Z!][^<>]*>`)
	template = regexp.MustCompile(`\{\{[^}]*\}\}`)
)

// untagged is what is read of a text with tags: what stands between them, and what they
// have for who does not see; each a paragraph.
func untagged(text string) string {
	if !tag.MatchString(text) {
		return text
	}
	text = unseen.ReplaceAllString(text, "")
	text = template.ReplaceAllStringFunc(text, func(string) string { return gap("…") })
	text = tag.ReplaceAllStringFunc(text, func(t string) string {
		said := "\n\n"
		for _, attribute := range readOut.FindAllStringSubmatch(t, -1) {
			said += attribute[1] + "\n\n"
		}
		return said
	})
	return html.UnescapeString(text)
}
