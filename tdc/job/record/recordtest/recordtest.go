// Package recordtest makes pictures for tests: invented ones, with what a camera writes
// beside the picture put in by hand.
package recordtest

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
)

// Place stands for where a picture was taken, in every text that a camera writes.
const Place = "N 52 31 12.0 E 13 24 18.0"

// invented is a picture of a slope, so that each of its corners can be told from the others.
func invented(width, height int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			img.Set(x, y, color.RGBA{uint8(x * 255 / width), uint8(y * 255 / height), 90, 255})
		}
	}
	return img
}

// JPEG is a picture as the standard library writes it.
func JPEG(width, height int) []byte {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, invented(width, height), nil); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// PNG is a picture as the standard library writes it.
func PNG(width, height int) []byte {
	var out bytes.Buffer
	if err := png.Encode(&out, invented(width, height)); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// Segment is a segment of a JPEG file.
func Segment(marker byte, body string) []byte {
	out := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(body)+2))
	return append(out, body...)
}

// InJPEG puts segments below the beginning of a JPEG file.
func InJPEG(file []byte, segments ...[]byte) []byte {
	return join(file[:2], bytes.Join(segments, nil), file[2:])
}

// Chunk is a chunk of a PNG file.
func Chunk(name, data string) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, name...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// headed is the bytes of a PNG file before what may be added.
const headed = 8 + 12 + 13

// InPNG puts chunks below the head of a PNG file.
func InPNG(file []byte, chunks ...[]byte) []byte {
	return join(file[:headed], bytes.Join(chunks, nil), file[headed:])
}

// Claiming is a PNG of no points that says it has so many.
func Claiming(width, height uint32) []byte {
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)
	head := append(bytes.Clone(PNG(1, 1)[:8]), Chunk("IHDR", string(size)+"\x08\x02\x00\x00\x00")...)
	return join(head, Chunk("IDAT", "\x78\x9c\x03\x00\x00\x00\x00\x01"), Chunk("IEND", ""))
}

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

// Exif is what a camera writes: how the picture is to be turned, beside its own name and the
// place.
func Exif(order binary.AppendByteOrder, turned uint16) string {
	out := []byte("II*\x00")
	if order.String() == "BigEndian" {
		out = []byte("MM\x00*")
	}
	out = order.AppendUint16(order.AppendUint32(out, 8), 3)
	entry := func(tag, kind uint16, count uint32, value []byte) {
		out = order.AppendUint32(order.AppendUint16(order.AppendUint16(out, tag), kind), count)
		out = append(out, value...)
	}
	entry(0x010f, 2, 4, []byte("Cam\x00"))
	entry(0x0112, 3, 1, order.AppendUint16(order.AppendUint16(nil, turned), 0))
	entry(0x8825, 4, 1, order.AppendUint32(nil, 50)) // the list with the place
	return string(order.AppendUint32(out, 0)) + Place
}

// FromPhone is a JPEG as a phone writes one that was held upright: on its side, and with the
// place in it.
func FromPhone(width, height int) []byte {
	file := InJPEG(JPEG(width, height), Segment(0xe1, "Exif\x00\x00"+Exif(binary.BigEndian, 6)),
		Segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x>"+Place+"</x>"))
	return append(file, Place...)
}

// HEIC is how a file begins that many phones write.
const HEIC = "\x00\x00\x00\x24ftypheic\x00\x00\x00\x00mif1heic"
