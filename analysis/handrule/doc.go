// Package handrule finds the surge voltage at every bus by the rules that
// people work by hand: the rating of the protector, what its leads add, and
// what the wiring adds between it and the bus.
//
// At the bus of a protector the level of a mode is its rating and what the
// leads add (Rule.AtBus). Away from it, only downstream and only within the
// transformer zone, the voltage rises with distance by the protective-distance
// rule, up to twice the level (AtDistance). Of several protectors at the bus
// or upstream in the zone the one that gives the lowest voltage decides, mode
// by mode. Where two modes in series span a third, their sum bounds it: that
// much is Kirchhoff's law. A bond of neutral and earth holds the mode between
// them at its place; downstream of it the voltage rises with distance.
//
// A protector counts in a mode where it is made for the voltage, the lines and
// the earthing of its bus, is connected in the mode and states its rating
// there.
//
// All is SI: volts peak for surges, volts rms for nominal voltages, metres,
// seconds. No result is NaN or infinite. Only a Rule that is not usable makes
// the package panic.
package handrule
