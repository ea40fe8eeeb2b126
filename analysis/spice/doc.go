// Package spice writes a circuit.Network as a deck for a general-purpose
// circuit simulator, runs one, and reads what it found: a second opinion on
// any result, for anybody who has ngspice.
//
// A deck holds the very circuit of the network, element by element, in SI
// units, under names made of numbers and of the names for people. ngspice runs
// it as it is (ngspice -b x.cir); it ends by itself and prints each Measure as
// a line "name = value". Names are of ASCII and cannot break a deck, whatever
// the names in the network are.
//
// Peaks are the greatest magnitudes of a mode over its conductors. All voltages
// that a deck measures are those of a bus; charge and energy are those of a
// varistor or gap from the start to the end of the run.
//
// The tolerances are those with which peaks keep to a few tenths of a per cent
// where the step resolves the reflections; halving it tells. Random networks
// of lines, transformers, protectors and gaps converge as long as varistors
// have their capacitance. Without any, a few bundles of them on coupled leads
// bring the simulator to a halt: then there are no numbers, and the error
// quotes it.
//
// Errors name the element or the number that is wrong. No function panics for
// what a network holds.
package spice
