package find

import (
	"strings"

	"evendrop/cmd/internal/doc"
)

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
