// Package svg writes a picture as an SVG document: the same strokes as every
// other painter draws, in millimetres, with the sheet's groups and their ids.
//
// What is written is deterministic, so two exports of one picture are equal
// byte for byte. Lengths are rounded to a thousandth of a millimetre, text is
// escaped, and the only errors are the writer's.
package svg
