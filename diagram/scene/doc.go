// Package scene places a document on the sheet: every part, feeder, protector
// and tag once, and from that one placement it draws the picture, measures it,
// tells what lies under the pointer and what a moving thing snaps to.
//
// What a bus is worth comes in as [Marks]: plain data, so that the scene
// colours a bus without knowing why. The zero Marks draws the bare building in
// ink. Marks for records that do not exist are passed over.
//
// Lengths are millimetres on the sheet, x to the right and y downward; shares
// of a feeder run from 0 at the part that feeds to 1 at the part that is fed.
// A Scene is made for one state of a document and does not follow later
// changes; several goroutines may read it at once. Nothing here panics.
package scene
