package raster

import (
	"encoding/binary"
	"image/color"
)

// The loops that touch each pixel. Colours are premultiplied, rows are RGBA.

func word(c color.RGBA) uint32 {
	return uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | uint32(c.A)<<24
}

// fillRow stores the colour in each pixel.
func fillRow(row []uint8, c color.RGBA) {
	w := word(c)
	for len(row) >= 4 {
		binary.LittleEndian.PutUint32(row, w)
		row = row[4:]
	}
}

// blendRow lays the colour over each pixel, as strongly as its cover says.
// Masks are mostly clear, so clear pixels are passed eight at a time.
func blendRow(row, cover []uint8, c color.RGBA) {
	w, opaque := word(c), c.A == 255
	for i := 0; i < len(cover); i++ {
		for i+8 <= len(cover) && binary.LittleEndian.Uint64(cover[i:]) == 0 {
			i += 8
		}
		if i == len(cover) {
			return
		}
		switch a := cover[i]; {
		case a == 0:
		case a == 255 && opaque:
			binary.LittleEndian.PutUint32(row[4*i:], w)
		default:
			mix(row[4*i:4*i+4:4*i+4], w, uint32(a))
		}
	}
}

// mix lays cover parts in 255 of the colour over one pixel. Two channels are
// worked out at a time, in the halves of a word.
func mix(pixel []uint8, paint, cover uint32) {
	const halves = 0x00ff00ff
	there := binary.LittleEndian.Uint32(pixel)
	take := cover + cover>>7 // of 256, so that a shift divides
	keep := 256 - (paint>>24*take+254)/255
	even := (paint&halves*take + there&halves*keep + 0x00800080) >> 8 & halves
	odd := (paint>>8&halves*take + there>>8&halves*keep + 0x00800080) & ^uint32(halves)
	binary.LittleEndian.PutUint32(pixel, even|odd)
}

// join lays cover over the coverage that is there.
func join(there, cover uint8) uint8 {
	return there + uint8((uint32(255-there)*uint32(cover)+127)/255)
}
