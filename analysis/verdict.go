package analysis

import "clampline/diagram"

// Mode is a pair of kinds of conductor; see diagram.Mode.
type Mode = diagram.Mode

// Verdict says how a voltage stands to what the equipment withstands.
type Verdict uint8

// The verdicts, from best to worst, Unknown aside. The zero value is Unknown.
const (
	Unknown   Verdict = iota // cannot be judged; the reason says what is missing
	Held                     // at most 80 % of withstand
	Tight                    // over 80 %, up to 100 %
	Exceeded                 // over withstand
	Unreached                // no protector reaches it
)

// HeldLimit is the share of the withstand up to which a bus is Held: the 0.8
// that IEC 62305-4:2010 annex C asks for up to 10 m of wiring (from memory).
const HeldLimit = 0.8

// Verdicts returns every verdict, in the order of a legend.
func Verdicts() []Verdict { return []Verdict{Held, Tight, Exceeded, Unreached, Unknown} }

// String returns the verdict as it stands on screen and in tables.
func (v Verdict) String() string {
	switch v {
	case Held:
		return "Held"
	case Tight:
		return "Tight"
	case Exceeded:
		return "Exceeded"
	case Unreached:
		return "Unreached"
	}
	return "Unknown"
}

// Letter returns the one letter by which the verdict is told apart in a print
// without colour.
func (v Verdict) Letter() string {
	switch v {
	case Held:
		return "H"
	case Tight:
		return "T"
	case Exceeded:
		return "X"
	case Unreached:
		return "U"
	}
	return "?"
}

// Judge returns the verdict for a surge voltage against a withstand, both in
// volts peak. A withstand of zero or less is not known.
func Judge(volts, withstand float64) Verdict {
	switch {
	case withstand <= 0:
		return Unknown
	case volts <= HeldLimit*withstand:
		return Held
	case volts <= withstand:
		return Tight
	}
	return Exceeded
}

// Basis is the way in which a voltage was found.
type Basis string

// The bases.
const (
	HandRule  Basis = "hand rule"
	Transient Basis = "transient"
)

// Reason is why a level or verdict is what it is, in one or a few words that
// do not change between versions.
type Reason string

// The reasons.
const (
	AtProtector     Reason = "protector here"  // its own rating decides
	LongLeads       Reason = "leads"           // the leads add to the rating of the protector here
	JustBelow       Reason = "just below"      // downstream, so close that the feeder to it counts as its lead
	Bonded          Reason = "bonded here"     // neutral and earth are joined at the bus itself
	NearProtector   Reason = "protector near"  // upstream, closer than the distance at which cover is doubtful
	Distance        Reason = "distance"        // upstream, that far away or farther
	NearBond        Reason = "bond near"       // a bond of neutral and earth upstream
	NoProtector     Reason = "no protector"    // none in the zone or above it
	PastTransformer Reason = "transformer"     // the nearest one upstream lies beyond a transformer
	PastSwitch      Reason = "open switch"     // the bus, or its protector, lies beyond an open switch
	Downstream      Reason = "protector below" // one in the same zone, but on the far side seen from the supply
	WrongVoltage    Reason = "wrong voltage"   // one in reach is made for another voltage
	WrongEarthing   Reason = "wrong earthing"  // one in reach does not stand this earthing
	WrongPhases     Reason = "wrong phases"    // one in reach lacks a line or the neutral
	MissingMode     Reason = "missing mode"    // one in reach has nothing in this mode
	NoWithstand     Reason = "withstand not known"
	NoSystem        Reason = "system not known" // fed by nothing, or by what contradicts itself
	NoRating        Reason = "rating not known" // one in reach does not state its voltage
)

// The reasons of the transient basis.
const (
	Solved     Reason = "solved"             // the voltage was computed
	SoFar      Reason = "still being solved" // computed of some surges, and others may reach more
	Destroyed  Reason = "protector fails"    // computed without a protector that the surge destroys
	OutOfReach Reason = "no surge arrives"   // no surge case reaches the bus through closed switches
)
