// Package protector makes a circuit of a surge protective device from what its
// nameplate states: a curve of current over voltage for each of its modes.
//
// A nameplate gives the voltage that was read in a standard test, leads and
// series paths included, and not the curve of a component. So Calibrate solves
// that very test with the whole protector, and scales a published typical
// curve until the simulated reading is the stated one.
//
//	VPR  peak at the ends of leads of 6 in when a combination wave generator of
//	     6 kV and 3 kA drives the mode (UL 1449; the 6 in as its older edition
//	     had them, from memory)
//	Up   peak at the terminals when an 8/20 current of In drives the mode
//	     (IEC 61643-11; from memory)
//
// A mode with a spark gap is tested with the combination wave in both cases: its
// level is the voltage at which it fires on that front.
//
// Install puts the protector on a bus by its own leads, which are a bundle of
// coupled partial inductances: how far apart they are matters as much as how
// long they are. Sharp bends have no inductance worth counting at the lengths
// and frequencies of surges, so there are none here.
//
// Everything is in SI units. Letters name conductors: 'A', 'B', 'C' the lines,
// 'N' the neutral, 'G' the earth (ground). A Model isn't changed once it is
// made and may be used by several goroutines.
package protector
