// Package draw records a sheet as a picture: strokes, fills, text and placed
// symbols, in order, each in a group tagged with an id. The picture is data.
// It is measured, compared as text, and replayed by any [Painter]: to the
// screen and PNG by draw/raster, to SVG, PDF and DXF by draw/svg, pdf and dxf.
//
// Lengths are millimetres on the sheet, x to the right and y downward, pen
// widths and text sizes among them. Turns are quarter turns, clockwise as
// seen. Colours are roles; a [Palette] gives them values when painting.
//
// What later items cover, earlier items lose: painters keep the order. Items
// with nothing to show (no role, no width, no text) and items that are not at
// finite coordinates are left out when recording, so that painters need not
// guard against them. Nothing here panics except an End without its Begin.
//
// A picture that is no longer being recorded may be read by several
// goroutines at once.
package draw
