package record

import (
	"bytes"
	"encoding/binary"
)

// orientation is how a picture has to be turned, from 1 to 8; 0 where nothing says so. From
// 5 on it is on its side (Exif 2.32, table 6, from memory).
type orientation uint16

func (o orientation) onItsSide() bool { return o >= 5 }

// exifBegins stands before the Exif data of a JPEG file.
var exifBegins = []byte("Exif\x00\x00")

// The tag that has the orientation, and the type of its number.
const (
	tagOrientation = 0x0112
	typeShort      = 3
	entrySize      = 12
)

// orientationIn finds the orientation in Exif data, which are a TIFF header and lists of
// tags; 0 where it has none, or is none.
func orientationIn(tiff []byte) orientation {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(tiff, []byte("II*\x00")):
		order = binary.LittleEndian
	case bytes.HasPrefix(tiff, []byte("MM\x00*")):
		order = binary.BigEndian
	default:
		return 0
	}
	if len(tiff) < 8 {
		return 0
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 0
	}
	count := int(order.Uint16(tiff[at:]))
	for list := tiff[at+2:]; count > 0 && len(list) >= entrySize; count, list = count-1, list[entrySize:] {
		if order.Uint16(list) != tagOrientation || order.Uint16(list[2:]) != typeShort {
			continue
		}
		if o := order.Uint16(list[8:]); o >= 1 && o <= 8 {
			return orientation(o)
		}
		return 0
	}
	return 0
}

// exif is Exif data that say the orientation and nothing else.
func (o orientation) exif() []byte {
	return []byte{'M', 'M', 0, '*', 0, 0, 0, 8, // the list begins after 8 bytes
		0, 1, // entry
		tagOrientation >> 8, tagOrientation & 0xff, 0, typeShort, 0, 0, 0, 1, 0, byte(o), 0, 0,
		0, 0, 0, 0, // no other list
	}
}
