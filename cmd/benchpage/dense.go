package main

import "slices"

// refused are the characters of seven bits that a text on its way may lose or change, and
// those that a script's element ends with.
var refused = []byte{0, '\n', '\r', '<', 0x0b, 0x0c, 0x1a, 0x1b}

// dense is data as text for a page in UTF-8, a seventh longer than the data, where base64
// is a third longer: seven bits a character. One that is refused is told together with the
// seven bits behind it, as a character of two bytes.
func dense(data []byte) string {
	out := make([]byte, 0, len(data)*8/7+2)
	bits := bitReader{data: data}
	for bits.more() {
		c := bits.seven()
		if i := slices.Index(refused, c); i >= 0 {
			out = append(out, string(rune(0x80+i<<7|int(bits.seven())))...)
		} else {
			out = append(out, c)
		}
	}
	return string(out)
}

// bitReader reads seven bits at a time, the highest first, and zeros past the end.
type bitReader struct {
	data []byte
	at   int // bits that were read
}

func (r *bitReader) more() bool { return r.at < 8*len(r.data) }

func (r *bitReader) seven() byte {
	var two uint16
	if i := r.at / 8; i < len(r.data) {
		two = uint16(r.data[i]) << 8
		if i+1 < len(r.data) {
			two |= uint16(r.data[i+1])
		}
	}
	shift := 9 - r.at%8
	r.at += 7
	return byte(two>>shift) & 0x7f
}
