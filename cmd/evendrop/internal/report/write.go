package report

import (
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
)

func terminal(d doc.Document) ([]byte, error) { return text.Terminal(d, lineWidth) }

func markdown(d doc.Document) ([]byte, error) { return text.Markdown(d) }

// wrapTo is text in lines of a width.
func wrapTo(words string, width int) string { return text.Wrap(words, "", width) }

// tells tells whether a paragraph or a list of the document has the words.
func tells(d doc.Document, words string) bool {
	for _, b := range d {
		switch b := b.(type) {
		case doc.Paragraph:
			if strings.Contains(b.Text, words) {
				return true
			}
		case doc.List:
			if strings.Contains(strings.Join(b.Items, " "), words) {
				return true
			}
		}
	}
	return false
}
