package form

import (
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
)

// Terminal is a document in lines of up to width characters.
func Terminal(d doc.Document, width int) ([]byte, error) { return text.Terminal(d, width) }

// Markdown is a document as Markdown.
func Markdown(d doc.Document) ([]byte, error) { return text.Markdown(d) }

// Wrap is text in lines of up to width characters.
func Wrap(words string, width int) string { return text.Wrap(words, "", width) }
