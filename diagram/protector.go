package diagram

// Type is the place that a protector is listed or tested for: Type 1, 2 or 3
// of UL 1449, class I, II or III of IEC 61643-11. The empty value is not
// known.
type Type string

// The types and classes.
const (
	Type1    Type = "type 1"
	Type2    Type = "type 2"
	Type3    Type = "type 3"
	ClassI   Type = "class I"
	ClassII  Type = "class II"
	ClassIII Type = "class III"
)

// Types returns every type and class, in the order of a list to pick from.
func Types() []Type { return []Type{Type1, Type2, Type3, ClassI, ClassII, ClassIII} }

// Rating is which measured voltage the nameplate states. The empty value
// stands for VPR.
type Rating string

// The ratings.
const (
	VPR Rating = "VPR" // voltage protection rating, UL 1449: at 6 kV, 3 kA, with 6 in of lead
	Up  Rating = "Up"  // voltage protection level, IEC 61643-11: at its terminals
)

// ModeRating is what a protector has in one mode.
type ModeRating struct {
	Connected bool
	Level     float64 // VPR or Up, V; 0 not known
	MCOV      float64 // MCOV or Uc, V rms; 0 not known
	Switching bool    // a spark gap or gas tube rather than a varistor
}

// Run is how the leads of a protector lie to each other. The empty value
// stands for separate.
type Run string

// The runs.
const (
	Separate Run = "separate"
	Bundled  Run = "bundled"
	Twisted  Run = "twisted"
)

// Lead is one conductor from the bus to the protector.
type Lead struct {
	Length float64 // m
	Area   float64 // cross-section, m2; 0 not known
}

// Leads are the conductors from the bus to the protector. All line
// conductors are alike.
type Leads struct {
	Phase, Neutral, Earth Lead
	Run                   Run
	Bends                 int // sharp bends, of a right angle or more
	Coils                 int // full turns of slack

	Steel       bool // the earth lead runs in a steel raceway
	SteelBonded bool // that raceway is bonded at both ends
}

// BreakerData is the overcurrent device that feeds a protector.
type BreakerData struct {
	Rated  float64 // A; 0 means none or not known
	Poles  int     // 0 not known
	Shared bool    // it also feeds something else

	// What the protector asks for, A: with less its surges trip the device, with
	// more it is not safe to fail. 0 not known.
	Least, Most float64
}

// Protector is a surge protective device attached to a bus, in one plan.
type Protector struct {
	ID     ID
	Plan   ID
	Bus    ID // the part it is attached to
	Name   string
	Note   string
	Offset float64 // mm along the bus bar from its middle
	Type   Type
	Rating Rating
	System System // the system it is made for; the zero value is not known
	Modes  [ModeCount]ModeRating

	In, Imax, Iimp float64 // A; 0 not known
	SCCR           float64 // A rms symmetrical; 0 not known
	Breaker        BreakerData
	External       bool // in an enclosure of its own, outside the board
	Leads          Leads
	Installed      Installed

	Price     float64 // in whatever currency the sheet is priced; 0 not known
	Hours     float64 // labour, h; 0 not known
	Catalogue string  // by which the person's own library has it from its seller; may be empty
	Extra     string  // as Part.Extra
}
