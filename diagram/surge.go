package diagram

// Path is between which conductors a surge arrives. Every surge case has one:
// the empty value is not allowed.
type Path string

// The paths.
const (
	LinesToEarth   Path = "lines to earth" // all lines alike
	LineToEarth    Path = "line to earth"
	LineToNeutral  Path = "line to neutral"
	LineToLine     Path = "line to line"
	NeutralToEarth Path = "neutral to earth"
)

// Paths returns every path, in the order of a list to pick from.
func Paths() []Path {
	return []Path{LinesToEarth, LineToEarth, LineToNeutral, LineToLine, NeutralToEarth}
}

// Wave is the shape of a surge over time. Every surge case has one: the empty
// value is not allowed.
type Wave string

// The waves. Two numbers are front time and time to half value, in us.
const (
	CombinationWave Wave = "combination"            // 1.2/50 open, 8/20 shorted, which does not turn
	LaboratoryWave  Wave = "laboratory combination" // the same as a laboratory makes it: the current swings back
	RingWave        Wave = "ring"                   // a damped oscillation of 100 kHz
	ImpulseWave     Wave = "10/350"
	CurrentWave     Wave = "8/20"
	LongWave        Wave = "10/1000"
	BurstWave       Wave = "burst" // fast transients, one after the other
)

// Waves returns every wave, in the order of a list to pick from.
func Waves() []Wave {
	return []Wave{CombinationWave, LaboratoryWave, RingWave, ImpulseWave, CurrentWave, LongWave, BurstWave}
}

// Places is at how many places a surge arrives, one after the other. The empty value
// is one place.
type Places string

// The places.
const (
	EveryBus   Places = "every bus" // each switchboard, panel and load
	EveryBoard Places = "every board"
	EveryLoad  Places = "every load"
)

// PlacesKinds returns every kind of places, in the order of a list to pick from.
func PlacesKinds() []Places { return []Places{EveryBus, EveryBoard, EveryLoad} }

// Has reports whether a kind of part is among the places.
func (p Places) Has(k Kind) bool {
	switch p {
	case EveryBus:
		return k.IsJudged()
	case EveryBoard:
		return k.IsBoard()
	case EveryLoad:
		return k == Load
	}
	return false
}

// Category is the location category of IEEE C62.41 of a place inside a building. The
// empty value is either.
type Category string

// The location categories inside.
const (
	CategoryA Category = "A" // outlets at the end of long branch circuits
	CategoryB Category = "B" // boards, feeders and short branch circuits
)

// Categories returns every location category, in the order of a list to pick from.
func Categories() []Category { return []Category{CategoryA, CategoryB} }

// Switching is what a load switches, and so how high the surges are that it makes. The
// empty value leaves it open.
type Switching string

// What a load switches.
const (
	OrdinarySwitching  Switching = "ordinary"
	ContactorSwitching Switching = "contactors"      // contactors, a motor drive, a welder
	CapacitorSwitching Switching = "capacitor banks" // or the like
)

// Switchings returns every kind of switching, in the order of a list to pick from.
func Switchings() []Switching {
	return []Switching{OrdinarySwitching, ContactorSwitching, CapacitorSwitching}
}

// Surge is a surge case: what arrives where.
type Surge struct {
	ID      ID
	Name    string
	Note    string
	Order   int    // surge cases are listed by it, then by id
	Part    ID     // the part at which it arrives; empty stands for the supply that is in use
	Places  Places // where it arrives at many: with a Part only those in its transformer zone
	Path    Path
	Wave    Wave
	Voltage float64 // V, crest with the terminals of the generator open; above 0
	Current float64 // A, crest with them shorted; above 0
	Extra   string  // as Part.Extra

	// Which of many places count; empty for all.
	Category  Category
	Switching Switching
}
