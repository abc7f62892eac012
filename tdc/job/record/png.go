package record

import (
	"encoding/binary"
	"hash/crc32"
)

var pngBegins = []byte("\x89PNG\r\n\x1a\n")

// drawn are the chunks that a picture is drawn by (PNG, third edition, 11, from memory). All
// else in a PNG file, such as its texts, is left out, and a moving picture keeps its first.
var drawn = map[string]bool{
	"IHDR": true, "PLTE": true, "IDAT": true, "tRNS": true, "cHRM": true, "gAMA": true, "iCCP": true,
	"sBIT": true, "sRGB": true, "cICP": true, "bKGD": true, "pHYs": true,
}

// chunkFrame is the bytes of a chunk beside its data: size, name and check sum.
const chunkFrame = 12

// pngFile is a PNG file that is copied without what is no part of the picture.
type pngFile struct {
	rest   []byte // of what is copied
	clean  []byte
	turned orientation
	filled bool // some of the picture was there
}

// cleanPNG copies a PNG file: of the chunks those that a picture is drawn by, and nothing
// behind its end.
func cleanPNG(raw []byte) ([]byte, orientation, error) {
	f := pngFile{rest: raw[len(pngBegins):], clean: append(make([]byte, 0, len(raw)+64), pngBegins...)}
	for {
		name, data, err := f.next()
		switch {
		case err != nil:
			return nil, 0, err
		case name == "IEND" && !f.filled:
			return nil, 0, errDamaged
		case name == "IEND":
			return f.put(name, nil), f.turned, nil
		case name == "eXIf" && f.turned == 0:
			if f.turned = orientationIn(data); f.turned != 0 {
				f.put(name, f.turned.exif())
			}
		case drawn[name]:
			f.filled = f.filled || name == "IDAT"
			f.put(name, data)
		case name[0]&0x20 == 0: // a capital: nobody can draw it who does not know it
			return nil, 0, errUnshown
		}
	}
}

// next is the next chunk, whose check sum is right.
func (f *pngFile) next() (name string, data []byte, err error) {
	if len(f.rest) < chunkFrame {
		return "", nil, errCut
	}
	size := uint64(binary.BigEndian.Uint32(f.rest))
	if size+chunkFrame > uint64(len(f.rest)) {
		return "", nil, errCut
	}
	end := 8 + size
	if crc32.ChecksumIEEE(f.rest[4:end]) != binary.BigEndian.Uint32(f.rest[end:]) {
		return "", nil, errDamaged
	}
	name, data, f.rest = string(f.rest[4:8]), f.rest[8:end], f.rest[end+4:]
	if first := len(f.clean) == len(pngBegins); first != (name == "IHDR") {
		return "", nil, errDamaged
	}
	return name, data, nil
}

// put writes a chunk, and is all that was written.
func (f *pngFile) put(name string, data []byte) []byte {
	f.clean = binary.BigEndian.AppendUint32(f.clean, uint32(len(data)))
	from := len(f.clean)
	f.clean = append(append(f.clean, name...), data...)
	f.clean = binary.BigEndian.AppendUint32(f.clean, crc32.ChecksumIEEE(f.clean[from:]))
	return f.clean
}
