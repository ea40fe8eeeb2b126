// Package symbol holds the symbols of the sheet: for each kind of part its
// strokes, the room it takes and where feeders meet it, and besides these the
// protector, the switches at the head of a feeder, the earth and the break.
//
// The shapes are drawn here anew after what IEC 60617 and IEEE 315 say in words:
// a transformer is two overlapping circles with its windings' signs, a
// varistor a rectangle crossed by a slanted line with a foot, an earth three
// shrinking strokes, a bus a heavy line. What the standards leave open (the
// supply, the load, the note) is this program's own.
//
// Lengths are millimetres about the symbol's origin, x to the right and y
// downward, unturned. A part is turned by quarter turns clockwise about its
// origin; text in a symbol stays upright. Terminals of parts lie on whole
// multiples of Pitch, so that parts on a grid of that pitch line up. Strokes
// are RoleInk, which takes the role a symbol is placed in.
//
// Pictures are shared and must not be drawn on. Nothing here panics.
package symbol
