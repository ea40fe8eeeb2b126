// Package route leads feeders over the sheet: lines of right angles between
// the terminals of parts.
//
// A line leaves and arrives in the direction of its terminals. Where the two
// face each other it has no bend or two; elsewhere one, three, or four where
// it must turn back. On a bus bar the tap is chosen here: straight before the
// other end where the bar reaches that far, spread where several meet, on the
// side that faces the other end. Lines that leave one side of a bar for the
// same direction run side by side in lanes, the farthest nearest to the bar,
// so that they don't cross. At a point that lines leave in any direction, each
// takes one of its own as long as there are any.
//
// A line goes round what is in its way only as far as another place for its
// middle piece does it; it is never refused. Lengths are millimetres on the
// sheet. Equal arguments give equal lines. Coordinates must be finite. Nothing
// here panics.
package route
