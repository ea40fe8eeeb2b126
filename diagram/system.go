package diagram

import (
	"math"
	"strconv"
)

// Wiring is how the line conductors of a system stand to each other. The
// empty value is not known.
type Wiring string

// The wirings.
const (
	Single   Wiring = "single"     // one line and a neutral, or two lines without one
	Split    Wiring = "split"      // two lines of opposite sign round a centre tap
	TwoOfWye Wiring = "two of wye" // two of the three lines round a star point
	Wye      Wiring = "wye"        // three lines round a star point
	Delta    Wiring = "delta"      // three lines without a star point
	HighLeg  Wiring = "high leg"   // delta with a centre tap on one winding; line B stands high
)

// Wirings returns every known wiring, in the order of a list to pick from.
func Wirings() []Wiring { return []Wiring{Single, Split, TwoOfWye, Wye, Delta, HighLeg} }

// Earthing is how a system stands to earth. The empty value is not known.
type Earthing string

// The earthings. Solid is the North American solidly earthed system; the TN
// forms, TT and IT are those of IEC 60364-1.
const (
	Solid     Earthing = "solid"
	Impedance Earthing = "impedance"
	Corner    Earthing = "corner"
	Unearthed Earthing = "ungrounded"
	TNS       Earthing = "TN-S"
	TNC       Earthing = "TN-C"
	TNCS      Earthing = "TN-C-S"
	TT        Earthing = "TT"
	IT        Earthing = "IT"
)

const sqrt3 = 1.7320508075688772

// starVoltage returns the nominal voltage from line to star point, in V rms.
// The pairs of IEC 60038:2009 table 1 (from memory) are rounded names, so that
// 400 V goes with 230 V and not with 230.9 V.
func starVoltage(line float64) float64 {
	switch line {
	case 208:
		return 120
	case 400:
		return 230
	case 415:
		return 240
	case 480:
		return 277
	case 600:
		return 347
	case 690:
		return 400
	}
	return line / sqrt3
}

// Earthings returns every known earthing, in the order of a list to pick
// from.
func Earthings() []Earthing {
	return []Earthing{Solid, Impedance, Corner, Unearthed, TNS, TNC, TNCS, TT, IT}
}

// HoldsNeutral reports whether the earthing keeps the star point or centre tap
// near earth in normal service, so that line to earth sees the line to neutral
// voltage. An earthing that is not known does not.
func (e Earthing) HoldsNeutral() bool {
	switch e {
	case Solid, TNS, TNC, TNCS, TT:
		return true
	}
	return false
}

// IsIEC reports whether the earthing is one that IEC 60364-1 names.
func (e Earthing) IsIEC() bool {
	switch e {
	case TNS, TNC, TNCS, TT, IT:
		return true
	}
	return false
}

// System is what a set of conductors carries.
type System struct {
	Wiring    Wiring
	Voltage   float64 // V rms between lines; from line to neutral where there is one line; 0 not known
	Neutral   bool    // a neutral conductor is present
	Earthing  Earthing
	Frequency float64 // Hz; 0 not known
}

// Known reports whether the system says at least its wiring and voltage.
func (s System) Known() bool { return s.Wiring != "" && s.Voltage > 0 }

// Lines returns how many line conductors there are: 1, 2 or 3, or 0 where the
// wiring is not known.
func (s System) Lines() int {
	switch s.Wiring {
	case Single:
		if s.Neutral {
			return 1
		}
		return 2
	case Split, TwoOfWye:
		return 2
	case Wye, Delta, HighLeg:
		return 3
	}
	return 0
}

// Phases returns 1 or 3, or 0 where the wiring is not known. Two lines are one
// phase, whatever they are of.
func (s System) Phases() int {
	switch s.Wiring {
	case Single, Split, TwoOfWye:
		return 1
	case Wye, Delta, HighLeg:
		return 3
	}
	return 0
}

// LineToNeutral returns the usual voltage from a line to the neutral, star
// point or centre tap, in V rms; of a delta, to the middle of the triangle. On
// a high-leg delta it is that of the two ordinary lines. Of two lines without a
// neutral that do not say of what they are (Single), it is that of two lines of
// a wye: a centre tap would stand lower, and a line that is earthed gives the
// full voltage whatever this is.
func (s System) LineToNeutral() float64 {
	switch s.Wiring {
	case Single:
		if s.Neutral {
			return s.Voltage
		}
		return starVoltage(s.Voltage)
	case Split, HighLeg:
		return s.Voltage / 2
	case Wye, TwoOfWye:
		return starVoltage(s.Voltage)
	case Delta:
		return s.Voltage / sqrt3
	}
	return 0
}

// HighestToNeutral returns the voltage to neutral of the line that stands
// highest, in V rms: on a high-leg delta that of line B.
func (s System) HighestToNeutral() float64 {
	if s.Wiring == HighLeg {
		return s.Voltage * sqrt3 / 2
	}
	return s.LineToNeutral()
}

// HighestToEarth returns the highest voltage that a line can have to earth for
// as long as the system runs, in V rms: where the earthing does not hold the
// neutral, the full voltage between lines.
func (s System) HighestToEarth() float64 {
	if s.Earthing.HoldsNeutral() && s.Wiring != Delta {
		return s.HighestToNeutral()
	}
	return s.Voltage
}

// HasMode reports whether conductors for the mode are present.
func (s System) HasMode(m Mode) bool {
	switch m {
	case LineNeutral, NeutralEarth:
		return s.Neutral && s.Wiring != ""
	case LineLine:
		return s.Lines() > 1
	}
	return s.Wiring != ""
}

// ModeVoltage returns the highest continuous nominal voltage across the mode,
// in V rms: none between neutral and earth where the earthing holds them
// together.
func (s System) ModeVoltage(m Mode) float64 {
	switch m {
	case LineNeutral:
		return s.HighestToNeutral()
	case LineEarth:
		return s.HighestToEarth()
	case LineLine:
		if s.Lines() > 1 {
			return s.Voltage
		}
		return 0
	}
	if s.Earthing.HoldsNeutral() {
		return 0
	}
	return s.LineToNeutral()
}

// String returns the short form that stands on a tag: "480Y/277", "120/240",
// "240 delta", "208/120 2-line", "480 3-wire" without a neutral, "400/230
// TN-S", or "not known".
func (s System) String() string {
	if !s.Known() {
		return "not known"
	}
	return s.volts() + s.suffix()
}

func (s System) volts() string {
	line, neutral := wholeVolts(s.Voltage), wholeVolts(s.LineToNeutral())
	switch {
	case !s.Neutral:
		return line
	case s.Wiring == Split:
		return neutral + "/" + line
	case s.Wiring == HighLeg, s.Wiring == TwoOfWye, s.Wiring == Wye && s.Earthing.IsIEC():
		return line + "/" + neutral
	case s.Wiring == Wye:
		return line + "Y/" + neutral
	}
	return line
}

// conductors names the wiring, and how many lines there are where they alone
// are there: a delta has no neutral to leave out.
func (s System) conductors() string {
	out := ""
	switch s.Wiring {
	case Delta:
		return " delta"
	case HighLeg:
		out = " high leg"
	case TwoOfWye:
		if s.Neutral {
			return " 2-line"
		}
	}
	if !s.Neutral {
		out += " " + strconv.Itoa(s.Lines()) + "-wire"
	}
	return out
}

func (s System) suffix() string {
	out := s.conductors()
	switch s.Earthing {
	case Solid, "":
		return out
	case Impedance:
		return out + " HRG"
	case Unearthed:
		if s.Wiring == Delta {
			return out
		}
	}
	return out + " " + string(s.Earthing)
}

// wholeVolts rounds to a whole volt: names of systems carry no fractions
// except where the voltage itself is below ten.
func wholeVolts(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	return strconv.FormatFloat(math.Round(v), 'f', 0, 64)
}
