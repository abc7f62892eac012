package archive

import (
	"archive/zip"
	"unicode/utf8"
)

// upper is what the bytes from 128 on mean in code page 437, in which a zip's names are
// where they are not in UTF-8 (APPNOTE of the zip format, appendix D, from memory). Letters of
// western Europe have the same bytes in code page 850, which Windows takes there.
var upper = []rune("ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜ¢£¥₧ƒáíóúñÑªº¿⌐¬½¼¡«»░▒▓│┤╡╢╖╕╣║╗╝╜╛┐└┴┬├─┼╞╟╚╔╩╦╠═╬╧╨╤╥╙╘╒╓╫╪┘┌█▄▌▐▀αßΓπΣσµτΦΘΩδ∞φε∩≡±≥≤⌠⌡÷≈°∙·√ⁿ²■\u00a0")

// named puts every name into UTF-8. It comes before a file is opened: a file system has no
// other names, and would leave out all files beside one.
func named(files []*zip.File) {
	for _, f := range files {
		if !utf8.ValidString(f.Name) {
			f.Name = decoded(f.Name)
		}
	}
}

// decoded is a name in code page 437.
func decoded(name string) string {
	text := make([]rune, len(name))
	for i := range len(name) {
		text[i] = rune(name[i])
		if name[i] >= utf8.RuneSelf {
			text[i] = upper[name[i]-utf8.RuneSelf]
		}
	}
	return string(text)
}
