package record

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
)

// Kind is how a picture is packed, as a page names it.
type Kind string

// The kinds that every browser shows.
const (
	JPEG Kind = "image/jpeg"
	PNG  Kind = "image/png"
)

// Picture is a JPEG or a PNG file without what a camera wrote into it beside the picture.
type Picture struct {
	Kind          Kind   // "" of one that was not read
	Data          []byte // of the file; how it is to be turned is still in it
	Width, Height int    // pixels, turned as it is shown
}

// What a picture may be at most.
const (
	MostBytes  = 5 << 20
	mostSide   = 12_000 // pixels
	mostPixels = 64_000_000
)

// smaller is what to do about a picture that is too large.
const smaller = "make the picture smaller, as a phone can when it edits or sends one (2,000 pixels wide is plenty), and name that file"

// TooLarge is said of a file of more than MostBytes.
const TooLarge = "is larger than 5 MB: " + smaller

const again = ": copy the picture from the phone or camera again"

var (
	errTooLarge = errors.New(TooLarge)
	errEmpty    = errors.New("is empty" + again)
	errCut      = errors.New("is a picture that was cut short" + again)
	errDamaged  = errors.New("is a picture that was damaged" + again)
	errUnshown  = errors.New("is a picture of a kind that not every browser shows: save it again as an ordinary JPEG or PNG, and name that file")
	errHEIC     = errors.New("is a HEIC picture, as many phones take them, and not every browser shows one. Save it as JPEG, or set the phone's camera to take JPEG, and name that file")
	errNone     = errors.New("is neither a JPEG nor a PNG picture, whatever its name says: save the picture as one of these, and name that file")
)

// Read takes the bytes of a picture file. An error says in words what is wrong with it and
// what to do, to stand behind the file's name. The picture itself is not unpacked.
func Read(raw []byte) (Picture, error) {
	if len(raw) > MostBytes {
		return Picture{}, errTooLarge
	}
	switch {
	case len(raw) == 0:
		return Picture{}, errEmpty
	case bytes.HasPrefix(raw, jpegBegins):
		data, turned, err := cleanJPEG(raw)
		return finish(JPEG, data, turned, err, jpeg.DecodeConfig)
	case bytes.HasPrefix(raw, pngBegins):
		data, turned, err := cleanPNG(raw)
		return finish(PNG, data, turned, err, png.DecodeConfig)
	case isHEIC(raw):
		return Picture{}, errHEIC
	}
	return Picture{}, errNone
}

// finish is a picture whose size can be shown.
func finish(kind Kind, data []byte, turned orientation, err error, config func(io.Reader) (image.Config, error)) (Picture, error) {
	if err != nil {
		return Picture{}, err
	}
	c, err := config(bytes.NewReader(data))
	if err != nil {
		return Picture{}, errUnshown
	}
	p := Picture{Kind: kind, Data: data, Width: c.Width, Height: c.Height}
	if turned.onItsSide() {
		p.Width, p.Height = p.Height, p.Width
	}
	switch {
	case p.Width < 1 || p.Height < 1:
		return Picture{}, errDamaged
	case p.Width > mostSide || p.Height > mostSide || p.Width*p.Height > mostPixels:
		return Picture{}, fmt.Errorf("is %d by %d pixels, more than 12,000 a side or 64 million in all: %s", p.Width, p.Height, smaller)
	}
	return p, nil
}

// isHEIC tells a HEIC file by its brand (ISO/IEC 23008-12, from memory).
func isHEIC(raw []byte) bool {
	if len(raw) < 12 || string(raw[4:8]) != "ftyp" {
		return false
	}
	switch string(raw[8:12]) {
	case "heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1":
		return true
	}
	return false
}
