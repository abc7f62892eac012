package main

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
)

// iconSize is the icon's side, in pixels.
const iconSize = 192

// drawIcon draws a degree wheel with its pointer at the top.
func drawIcon() ([]byte, error) {
	ground, ink, hand := color.Gray{0xf5}, color.Gray{0x18}, color.RGBA{0xd0, 0x6a, 0x10, 0xff}
	img := image.NewPaletted(image.Rect(0, 0, iconSize, iconSize), color.Palette{ground, ink, hand})
	for y := range iconSize {
		for x := range iconSize {
			img.SetColorIndex(x, y, iconAt(float64(x)-iconSize/2+0.5, float64(y)-iconSize/2+0.5))
		}
	}
	var out bytes.Buffer
	err := png.Encode(&out, img)
	return out.Bytes(), err
}

// iconAt is the colour at a point from the middle: 0 ground, 1 ink, 2 the hand.
func iconAt(x, y float64) uint8 {
	const rim, inner, tick = 84, 76, 62
	r := math.Hypot(x, y)
	turn := math.Mod(math.Atan2(x, -y)*180/math.Pi+360, 30) // ticks every 30 deg
	switch {
	case y < 0 && y > -58 && math.Abs(x) < 5+(y+58)/10 || r < 13:
		return 2
	case r < rim && r > inner, r < inner && r > tick && math.Min(turn, 30-turn)*r*math.Pi/180 < 3:
		return 1
	}
	return 0
}
