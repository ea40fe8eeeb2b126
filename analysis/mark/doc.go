// Package mark turns results into the marks that a scene draws: colour,
// pattern, letter and tag of each bus, colour along each feeder, and the
// places where cover ends. It decides nothing: it only puts into few words
// what a result says.
package mark
