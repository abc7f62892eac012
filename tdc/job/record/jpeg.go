package record

import (
	"bytes"
	"encoding/binary"
)

var jpegBegins = []byte{0xff, 0xd8, 0xff}

// The markers of a JPEG file (ITU-T T.81, table B.1, from memory).
const (
	startOfImage  = 0xd8
	endOfImage    = 0xd9
	startOfScan   = 0xda
	firstRestart  = 0xd0
	lastRestart   = 0xd7
	huffman       = 0xc4
	quantisation  = 0xdb
	numberOfLines = 0xdc
	restart       = 0xdd
	baseline      = 0xc0
	extended      = 0xc1
	progressive   = 0xc2
	jfif          = 0xe0 // APP0
	exifOrXMP     = 0xe1
	profile       = 0xe2
	adobe         = 0xee
)

// jpegFile is a JPEG file that is copied without what is no part of the picture.
type jpegFile struct {
	rest    []byte // of what is copied
	clean   []byte
	turned  orientation
	framed  bool // its size was there
	scanned bool // so was some of the picture
}

// cleanJPEG copies a JPEG file: of the segments those that a picture is drawn by, and
// nothing behind its end.
func cleanJPEG(raw []byte) ([]byte, orientation, error) {
	f := jpegFile{rest: raw[2:], clean: append(make([]byte, 0, len(raw)+64), raw[:2]...)}
	for {
		marker, err := f.next()
		switch {
		case err != nil:
			return nil, 0, err
		case marker == endOfImage && f.scanned:
			return append(f.clean, 0xff, endOfImage), f.turned, nil
		case marker == endOfImage || marker == startOfImage:
			return nil, 0, errDamaged
		case marker < baseline || marker >= firstRestart && marker <= lastRestart: // no segment
			continue
		}
		if err := f.segment(marker); err != nil {
			return nil, 0, err
		}
	}
}

// next is the next marker; what stands before it is no part of the picture.
func (f *jpegFile) next() (marker byte, err error) {
	at := bytes.IndexByte(f.rest, 0xff)
	for at >= 0 && at < len(f.rest) && f.rest[at] == 0xff { // it may be there several times
		at++
	}
	if at < 0 || at == len(f.rest) {
		return 0, errCut
	}
	marker, f.rest = f.rest[at], f.rest[at+1:]
	return marker, nil
}

// segment copies a segment, if a picture is drawn by it.
func (f *jpegFile) segment(marker byte) error {
	if len(f.rest) < 2 {
		return errCut
	}
	size := int(binary.BigEndian.Uint16(f.rest))
	switch {
	case size < 2:
		return errDamaged
	case size > len(f.rest):
		return errCut
	}
	var body []byte
	body, f.rest = f.rest[2:size], f.rest[size:]
	switch marker {
	case huffman, quantisation, numberOfLines, restart:
		f.put(marker, body)
	case baseline, extended, progressive:
		if f.framed {
			return errDamaged
		}
		f.framed = true
		f.put(marker, body)
	case startOfScan:
		f.put(marker, body)
		return f.scan()
	case jfif, exifOrXMP, profile, adobe:
		f.application(marker, body)
	default:
		if marker < firstRestart { // another way of packing
			return errUnshown
		}
	}
	return nil
}

// put writes a segment.
func (f *jpegFile) put(marker byte, body []byte) {
	f.clean = append(f.clean, 0xff, marker)
	f.clean = binary.BigEndian.AppendUint16(f.clean, uint16(len(body)+2))
	f.clean = append(f.clean, body...)
}

// application copies of what programs write beside the picture what its colours hang on,
// and which way up it is.
func (f *jpegFile) application(marker byte, body []byte) {
	const plain = 14 // bytes of JFIF without a small picture, whose size stands last
	switch {
	case marker == jfif && bytes.HasPrefix(body, []byte("JFIF\x00")) && len(body) >= plain:
		f.put(marker, append(bytes.Clone(body[:plain-2]), 0, 0))
	case marker == profile && bytes.HasPrefix(body, []byte("ICC_PROFILE\x00")),
		marker == adobe && bytes.HasPrefix(body, []byte("Adobe")):
		f.put(marker, body)
	case marker == exifOrXMP && bytes.HasPrefix(body, exifBegins) && f.turned == 0 && !f.scanned:
		if f.turned = orientationIn(body[len(exifBegins):]); f.turned != 0 {
			f.put(marker, append(bytes.Clone(exifBegins), f.turned.exif()...))
		}
	}
}

// scan copies the packed picture up to the next marker that is none of its own.
func (f *jpegFile) scan() error {
	if !f.framed {
		return errDamaged
	}
	f.scanned = true
	end := 0
	for {
		at := bytes.IndexByte(f.rest[end:], 0xff)
		if at < 0 || end+at+1 == len(f.rest) {
			return errCut
		}
		end += at
		switch next := f.rest[end+1]; {
		case next == 0 || next >= firstRestart && next <= lastRestart:
			end += 2
		case next == 0xff:
			end++
		default:
			f.clean, f.rest = append(f.clean, f.rest[:end]...), f.rest[end:]
			return nil
		}
	}
}
