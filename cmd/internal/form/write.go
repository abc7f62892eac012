package form

import (
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
)

func Terminal(d doc.Document) ([]byte, error) { return text.Terminal(d, LineWidth) }

func Markdown(d doc.Document) ([]byte, error) { return text.Markdown(d) }

// wrapTo is text in lines of a width.
func Wrap(words string, width int) string { return text.Wrap(words, "", width) }
