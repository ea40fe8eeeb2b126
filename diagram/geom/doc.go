// Package geom holds the plane geometry of the sheet: points, rectangles,
// affine maps, segments and polylines.
//
// Lengths are millimetres on the sheet, x to the right and y downward. Nothing
// here knows pixels. Angles are quarter turns, clockwise as seen on the sheet.
// No function panics; a zero value is the origin, an empty rectangle or the
// map that sends all to the origin, as its type says.
package geom
