package record_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/record"
	"evendrop/tdc/job/record/recordtest"
)

// What a camera writes beside the picture is gone, and the picture is the same to the last
// point.
func TestJPEGWithoutWhatACameraAdds(t *testing.T) {
	plain := recordtest.JPEG(48, 32)
	seg := recordtest.Segment
	kept := [][]byte{seg(0xe2, "ICC_PROFILE\x00\x01\x01colours"), seg(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01")}
	raw := recordtest.InJPEG(plain,
		seg(0xe0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x01\x01"+recordtest.Place[:3]),
		seg(0xe0, "JFXX\x00\x10"+recordtest.Place),
		seg(0xe1, "Exif\x00\x00"+recordtest.Exif(binary.LittleEndian, 8)),
		seg(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+recordtest.Place),
		seg(0xe2, "MPF\x00"+recordtest.Place), kept[0],
		seg(0xe5, recordtest.Place), seg(0xed, "Photoshop 3.0\x00"+recordtest.Place), kept[1],
		seg(0xfe, recordtest.Place), seg(0xef, recordtest.Place))
	raw = append(raw, recordtest.JPEG(8, 8)...) // a second picture behind the first
	raw = append(raw, recordtest.Place...)
	p, err := record.Read(raw)
	require.NoError(t, err)
	require.Equal(t, record.JPEG, p.Kind)
	require.Equal(t, []int{32, 48}, []int{p.Width, p.Height}, "it is on its side")
	require.NotContains(t, string(p.Data), recordtest.Place[:3])
	require.NotContains(t, string(p.Data), "Cam")
	turned := seg(0xe1, "Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x08\x00\x00\x00\x00\x00\x00")
	require.Equal(t, recordtest.InJPEG(plain, seg(0xe0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00"), turned, kept[0], kept[1]), p.Data)
	samePoints(t, raw, p.Data)
}

// The same of a PNG.
func TestPNGWithoutWhatACameraAdds(t *testing.T) {
	plain := recordtest.PNG(48, 32)
	chunk := recordtest.Chunk
	kept := [][]byte{chunk("gAMA", "\x00\x00\xb1\x8f"), chunk("pHYs", "\x00\x00\x0b\x13\x00\x00\x0b\x13\x01")}
	raw := recordtest.InPNG(plain, kept[0],
		chunk("tEXt", "Comment\x00"+recordtest.Place), chunk("zTXt", recordtest.Place), chunk("iTXt", "XML:com.adobe.xmp\x00"+recordtest.Place),
		chunk("tIME", "\x07\xea\x0b\x1a\x09\x00\x00"), chunk("eXIf", recordtest.Exif(binary.BigEndian, 6)), chunk("acTL", "\x00\x00\x00\x02\x00\x00\x00\x00"),
		chunk("prVt", recordtest.Place), kept[1])
	raw = append(raw, recordtest.Place...)
	p, err := record.Read(raw)
	require.NoError(t, err)
	require.Equal(t, record.PNG, p.Kind)
	require.Equal(t, []int{32, 48}, []int{p.Width, p.Height})
	turned := chunk("eXIf", "MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00")
	require.Equal(t, recordtest.InPNG(plain, kept[0], turned, kept[1]), p.Data)
	samePoints(t, raw, p.Data)
}

func samePoints(t *testing.T, raw, clean []byte) {
	t.Helper()
	before, _, err := image.Decode(bytes.NewReader(raw))
	require.NoError(t, err)
	after, _, err := image.Decode(bytes.NewReader(clean))
	require.NoError(t, err)
	require.Equal(t, before, after)
}

// A picture that begins anew within itself is whole.
func TestRestarts(t *testing.T) {
	plain := recordtest.JPEG(48, 32)
	at := len(plain) - 20
	raw := bytes.Join([][]byte{plain[:at], []byte("\x00\xff\xd0\xff\x00\xff\xff\xd7\x00"), plain[at:]}, nil)
	p, err := record.Read(raw)
	require.NoError(t, err)
	require.Equal(t, raw, p.Data)
}

// A picture without any of it stays byte for byte.
func TestPlainPicturesStay(t *testing.T) {
	for _, raw := range [][]byte{recordtest.JPEG(48, 32), recordtest.PNG(48, 32), recordtest.JPEG(1, 1), recordtest.PNG(1, 1)} {
		p, err := record.Read(raw)
		require.NoError(t, err)
		require.Equal(t, raw, p.Data)
	}
}

// Every way of turning is kept, in either order of bytes; what is no way of turning says
// nothing.
func TestTurned(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
		for turned := range uint16(10) {
			raw := recordtest.InJPEG(recordtest.JPEG(48, 32), recordtest.Segment(0xe1, "Exif\x00\x00"+recordtest.Exif(order, turned)))
			p, err := record.Read(raw)
			require.NoError(t, err)
			kept := []byte{0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, byte(turned)}
			is := turned >= 1 && turned <= 8
			require.Equal(t, is, bytes.Contains(p.Data, []byte("Exif")), turned)
			require.Equal(t, is, bytes.Contains(p.Data, kept), turned)
			if wide := turned < 5 || turned == 9; wide {
				require.Equal(t, []int{48, 32}, []int{p.Width, p.Height}, turned)
			} else {
				require.Equal(t, []int{32, 48}, []int{p.Width, p.Height}, turned)
			}
		}
	}
	first := recordtest.Segment(0xe1, "Exif\x00\x00"+recordtest.Exif(binary.BigEndian, 3))
	second := recordtest.Segment(0xe1, "Exif\x00\x00"+recordtest.Exif(binary.BigEndian, 6))
	p, err := record.Read(recordtest.InJPEG(recordtest.JPEG(48, 32), first, second))
	require.NoError(t, err)
	require.Equal(t, 1, bytes.Count(p.Data, []byte("Exif")))
	require.Equal(t, 48, p.Width, "the first counts")
	whole := recordtest.Exif(binary.BigEndian, 6)
	for _, broken := range []string{
		"", "MM\x00*", whole[:9], whole[:21], whole[:29], "XX" + whole[2:],
		"MM\x00*\xff\xff\xff\xff" + whole[8:], "MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x04\x00\x00\x00\x01\x00\x06\x00\x00",
	} {
		p, err := record.Read(recordtest.InJPEG(recordtest.JPEG(48, 32), recordtest.Segment(0xe1, "Exif\x00\x00"+broken)))
		require.NoError(t, err)
		require.Equal(t, recordtest.JPEG(48, 32), p.Data, "%q", broken)
	}
}

// What is no picture that a page shows is refused in words that say what to do.
func TestRefused(t *testing.T) {
	const again = "copy the picture from the phone or camera again"
	seg := recordtest.Segment
	frame := func(marker byte) string {
		return "\xff\xd8" + string(seg(marker, "\x08\x00\x08\x00\x08\x01\x01\x11\x00"))
	}
	scan := string(seg(0xda, "\x01\x01\x00\x00\x3f\x00")) + "\x00\xff\xd9"
	begins := string(recordtest.PNG(1, 1)[:8])
	const chunked = 12
	whole := string(recordtest.Claiming(1, 1))
	head, filled, end := whole[len(begins):len(begins)+chunked+13], string(recordtest.Chunk("IDAT", "")), string(recordtest.Chunk("IEND", ""))
	for raw, says := range map[string]string{
		"":                                   "is empty: " + again,
		"GIF89a":                             "is neither a JPEG nor a PNG picture, whatever its name says",
		"<svg onload=alert(1)>":              "is neither a JPEG nor a PNG",
		"RIFF\x00\x00\x00\x00WEBP":           "is neither a JPEG nor a PNG",
		recordtest.HEIC:                      "is a HEIC picture, as many phones take them",
		"\xff\xd8\xff":                       "was cut short: " + again,
		"\xff\xd8\xff\xff\xff":               "was cut short",
		"\xff\xd8\xff\xe1\x00":               "was cut short",
		"\xff\xd8\xff\xe1\x00\x01":           "was damaged: " + again,
		"\xff\xd8\xff\xe1\xff\xffExif":       "was cut short",
		"\xff\xd8\xff\xd9":                   "was damaged",
		"\xff\xd8\xff\xd8":                   "was damaged",
		"\xff\xd8" + scan:                    "was damaged",
		frame(0xc0) + "\xff\xd9":             "was damaged",
		frame(0xc0) + frame(0xc0)[2:] + scan: "was damaged",
		frame(0xc0) + scan[:9]:               "was cut short",
		frame(0xc3) + scan:                   "is a picture of a kind that not every browser shows",
		frame(0xc9) + scan:                   "is a picture of a kind that not every browser shows",
		begins:                               "was cut short",
		begins + head:                        "was cut short",
		begins + head + end:                  "was damaged",
		begins + filled + end:                "was damaged",
		begins + head + head + filled + end:  "was damaged",
		begins + head + string(recordtest.Chunk("CgBI", "")) + filled + end: "is a picture of a kind that not every browser shows",
		string(recordtest.Claiming(0, 1)):                                   "is a picture",
		string(recordtest.Claiming(12_001, 1)):                              "is 12001 by 1 pixels, more than 12,000 a side or 64 million in all: make the picture smaller",
		string(recordtest.Claiming(1, 12_001)):                              "is 1 by 12001 pixels",
		string(recordtest.Claiming(8_001, 8_000)):                           "is 8001 by 8000 pixels",
		"\xff\xd8\xff" + strings.Repeat("\x00", 5<<20):                      "is larger than 5 MB: make the picture smaller, as a phone can when it edits or sends one",
	} {
		_, err := record.Read([]byte(raw))
		require.ErrorContains(t, err, says, "%.40q", raw)
	}
	for _, most := range [][2]uint32{{8_000, 8_000}, {12_000, 5_333}} {
		_, err := record.Read(recordtest.Claiming(most[0], most[1]))
		require.NoError(t, err)
	}
}

// A picture is whole or refused, wherever it was cut; a PNG also wherever a bit of it fell over.
func TestCutAndDamaged(t *testing.T) {
	for _, raw := range [][]byte{recordtest.FromPhone(9, 7)[:len(recordtest.FromPhone(9, 7))-len(recordtest.Place)], recordtest.PNG(9, 7)} {
		for n := range raw {
			_, err := record.Read(raw[:n])
			require.Error(t, err, n)
		}
	}
	raw := recordtest.PNG(9, 7)
	for i := range raw {
		damaged := bytes.Clone(raw)
		damaged[i] ^= 1 << (i % 8)
		_, err := record.Read(damaged)
		require.Error(t, err, i)
	}
}

// A sheet with no more than a date is none.
func TestEmpty(t *testing.T) {
	require.True(t, record.Sheet{Date: "2026-11-26"}.Empty())
	require.False(t, record.Sheet{Order: "4711"}.Empty())
}

// Whatever a file holds, it is a picture that stays as it is when it is read again, or is
// refused in words; and nothing that a camera adds is left in it.
func FuzzRead(f *testing.F) {
	f.Add(recordtest.FromPhone(9, 7))
	f.Add(recordtest.PNG(9, 7))
	f.Add(recordtest.InPNG(recordtest.PNG(2, 2), recordtest.Chunk("eXIf", recordtest.Exif(binary.LittleEndian, 5)), recordtest.Chunk("tEXt", "a\x00b")))
	f.Add([]byte(recordtest.HEIC))
	f.Add(recordtest.InJPEG(recordtest.JPEG(2, 2), recordtest.Segment(0xe2, "ICC_PROFILE\x00\x01\x01"), recordtest.Segment(0xfe, recordtest.Place)))
	f.Fuzz(func(t *testing.T, raw []byte) {
		p, err := record.Read(raw)
		if err != nil {
			require.Zero(t, p)
			require.NotRegexp(t, "jpeg|png:|invalid|format", err.Error())
			return
		}
		require.LessOrEqual(t, len(p.Data), len(raw)+8) // of a list of tags without an end
		require.Positive(t, p.Width)
		require.Positive(t, p.Height)
		config, kind, err := image.DecodeConfig(bytes.NewReader(p.Data))
		require.NoError(t, err)
		require.Equal(t, string(p.Kind), "image/"+kind)
		require.Contains(t, []string{fmt.Sprint(config.Width, config.Height), fmt.Sprint(config.Height, config.Width)}, fmt.Sprint(p.Width, p.Height))
		again, err := record.Read(p.Data)
		require.NoError(t, err)
		require.Equal(t, p, again)
	})
}
