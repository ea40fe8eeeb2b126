// Package fault finds what current can flow at each terminal of a building
// when its conductors are joined there.
//
// The complex sum adds up symmetrical components, as IEEE 141 and IEC 60909-0
// do: Z1 = Z2 of three phases and Z0 of the way back, in Ω at the voltage of
// the place, carried over a transformer by the square of the ratio of its
// voltages. Where there is one phase, what stands for Z1 is half of the loop
// between the lines (of one line and a neutral: half of that loop), so that
// Z1 of three phases goes over into it unchanged, a loop between two lines
// being 2 Z1. The way back of a centre tap is likewise half of the loop from
// line to neutral. A board on one line and the neutral begins anew with half of
// that loop, of three phases (Z1 + Z2 + Z0) / 6. The network is reduced exactly, whether it is a tree or has
// loops: supplies in parallel, two ways to one board and motors add up.
//
// The point-to-point method is the same sum of magnitudes alone, which is what
// its factors f and M come to, with the constants C of handbooks.
//
// By the practice of NFPA 70 the voltage is the nominal one and the conductors
// are those of its chapter 9, table 9, at 75 °C. By that of IEC the voltage is
// 1.10 times the nominal one, the conductors are at 20 °C, and the windings of
// a transformer are rated 1.05 times the nominal voltage at no load: at its
// terminals the two factors cancel but for 0.2 %.
//
// Resistance and reactance that are typed in at a feeder stand, as they are, over
// those of the tables, a C that is typed in over that of the point-to-point method.
//
// The neutral and the earth conductor of a feeder are taken to be like its
// lines, so that Z0 = 4 Z1 and a fault from line to neutral sees 2 Z1. Motors
// feed a fault of three phases and between lines, and through Z1 and Z2 one to
// neutral or earth; their star points are not earthed and add nothing to Z0.
//
// All is SI: volts and amperes rms symmetrical, ohms, metres. No result is NaN
// or infinite. Nothing panics; what cannot be found is not Known and says what
// is missing.
package fault
