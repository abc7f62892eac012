package html

import "evendrop/cmd/internal/doc"

// Write is a document that is one part of a page.
func Write(d doc.Document) []byte { return part(d, "s") }
