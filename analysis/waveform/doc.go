// Package waveform holds the surges that standards name, as formulas of time
// and as a generator circuit, and measures waves that are sampled in time.
//
// Everything is in SI units: seconds, volts, amperes, ohms, coulombs, joules.
// A Shape has no unit, its crest is 1, and it is zero before the time 0. A
// Trace has the unit of its values: V or A. A wave may be negative; its crest
// is the value of greatest magnitude, and levels in per cent are shares of it,
// so that a wave and its negative have the same front and tail.
//
// A front is the time of a straight line from zero to the crest: through 30 %
// and 90 % of a voltage, through 10 % and 90 % of a current (IEC 60060-1). The
// line crosses zero at the virtual origin.
//
// A tail is counted in two ways, and a number must say which it means.
// VoltageTail and CurrentTail count from the virtual origin to 50 % on the tail
// (IEC 60060-1, IEC 61643-11). Width counts between the two points of 50 %, as
// IEC 61000-4-5:2014 does: the duration of a 1.2/50 is the width itself, that
// of an 8/20 is 1.18 times the width (from memory: clause 6.2). The two ways
// differ by 1 % for a 1.2/50, but the bare width of an 8/20 is 4 us below its
// tail.
//
// A measure of a trace that doesn't hold what is measured, or holds a value
// that is no number, is an error that says what is missing. The integrals and
// the slope take any trace; that of an empty one is zero.
//
// Constants and levels are marked "from memory" where the standard itself was
// not at hand; the tests show that the constants give the wave that the
// standard names.
package waveform
