package chart

import "bytes"

// Style is the style sheet of every picture, for a page that holds several.
func Style() string { return style() }

// Unstyled is a picture without its style sheet, for a page that has it already.
func Unstyled(svg []byte) []byte {
	return bytes.Replace(svg, []byte("<style>"+style()+"</style>\n"), nil, 1)
}
