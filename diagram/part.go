package diagram

import "clampline/diagram/geom"

// Part is one thing placed on the sheet. The groups that its kind does not use
// are zero.
type Part struct {
	ID   ID
	Kind Kind
	Name string
	Note string
	At   geom.Point // middle of the symbol, mm on the sheet
	Turn int        // quarter turns clockwise, 0 to 3
	Span float64    // length of a bus bar or width of a note, mm; 0 takes the usual size

	// System is what a supply or generator delivers, the secondary side of a
	// transformer, or what the nameplate of a board says; the zero value of a
	// board means that it is found from its supply.
	System System

	Source      SourceData      // supply, generator
	Transfer    TransferData    // transfer switch
	Transformer TransformerData // transformer
	Board       BoardData       // switchboard, panel
	Load        LoadData        // load
	Withstand   Withstand       // switchboard, panel, load
	Exposure    Exposure        // supply
	Use         Use             // switchboard, panel, load

	// Extra holds the members of the file's record that this program does not
	// know, as a JSON object with sorted names, or nothing.
	Extra string
}

// SourceData is what a supply or generator is.
type SourceData struct {
	FaultCurrent      float64 // A rms symmetrical at its terminals, of all lines (of the two, of a split phase); 0 not known
	EarthFaultCurrent float64 // A rms symmetrical from one line to earth; 0 not known
	XR                float64 // reactance over resistance; 0 not known
	Power             float64 // VA, of a supply that of the transformer it comes from; 0 not known
	Reactance         float64 // per cent on Power: subtransient of a generator, impedance of that transformer; 0 not known
}

// Position is the side from which a transfer switch takes its supply.
type Position string

// The positions; the empty value stands for normal.
const (
	ToNormal    Position = "normal"
	ToEmergency Position = "emergency"
)

// TransferData is what a transfer switch is.
type TransferData struct {
	Position        Position
	SwitchesNeutral bool
}

// Selected returns the port that is connected to the load side.
func (t TransferData) Selected() Port {
	if t.Position == ToEmergency {
		return Emergency
	}
	return Normal
}

// TransformerData is what a transformer is, besides its secondary system.
type TransformerData struct {
	Power     float64 // VA; 0 not known
	Primary   System
	Impedance float64 // per cent on Power; 0 not known
	XR        float64 // reactance over resistance; 0 not known
	Screen    bool    // an electrostatic screen, earthed, between the windings
	Auto      bool    // one winding serves both sides
}

// Mounting is how a board sits in its wall. The empty value is not known.
type Mounting string

// The mountings.
const (
	Surface Mounting = "surface"
	Flush   Mounting = "flush"
)

// BoardData is what a switchboard or panel is.
type BoardData struct {
	Rating      float64 // A; 0 not known
	MainBreaker float64 // A; 0 means lugs only or not known
	Spaces      int     // poles in all; 0 not known
	FreeSpaces  int     // poles free
	Mounting    Mounting
	Service     bool // holds the service disconnect
	Bonded      bool // neutral is bonded to earth here
	Structure   bool // the first board of another building or structure

	FaultCurrent  float64 // A rms symmetrical as marked on it or told on site; 0 not known
	FreePositions string  // which of its spaces are free, as numbered there
	ShortLead     string  // where a protector could sit with short leads
	Photos        string  // names of files, with commas between
}

// Connection is how a load is connected. The empty value takes what the bus
// has.
type Connection string

// The connections.
const (
	ToNeutral     Connection = "L-N"
	BetweenLines  Connection = "L-L"
	ThreeWire     Connection = "three-phase"
	ThreeWireStar Connection = "three-phase with neutral"
)

// Terminals is what a surge meets at the terminals of a load. The empty value says
// that this is not known.
type Terminals string

// The terminals.
const (
	OpenTerminals      Terminals = "open"
	ResistiveTerminals Terminals = "resistive" // its rated power, as a resistance
	FilteredTerminals  Terminals = "filtered"  // electronics behind filter capacitors
)

// TerminalKinds returns every kind of terminals, in the order of a list to
// pick from.
func TerminalKinds() []Terminals {
	return []Terminals{OpenTerminals, ResistiveTerminals, FilteredTerminals}
}

// LoadData is what a load is.
type LoadData struct {
	Connection Connection
	Voltage    float64 // rated, V rms across its terminals; 0 takes that of the bus
	Power      float64 // VA; 0 not known
	Critical   bool    // its loss matters more than that of others
	Motor      bool    // a motor without a drive: it feeds a fault for some cycles
	Terminals  Terminals
	Switching  Switching // what it switches; empty for contactors of a motor, else ordinary
}

// Switches returns what a part switches. A motor without a drive has a contactor
// (common practice, no source).
func (p *Part) Switches() Switching {
	switch {
	case p.Kind != Load:
		return OrdinarySwitching
	case p.Load.Switching != "":
		return p.Load.Switching
	case p.Load.Motor:
		return ContactorSwitching
	}
	return OrdinarySwitching
}
