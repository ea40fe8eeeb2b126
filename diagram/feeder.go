package diagram

// End is where a feeder meets a part.
type End struct {
	Part ID
	Port Port
}

// Material is what a conductor is made of. The empty value stands for copper.
type Material string

// The materials.
const (
	Copper    Material = "copper"
	Aluminium Material = "aluminium"
)

// Raceway is what holds the conductors. The empty value is not known.
type Raceway string

// The raceways and cables.
const (
	SteelConduit       Raceway = "steel conduit"
	AluminiumConduit   Raceway = "aluminium conduit"
	NonmetallicConduit Raceway = "nonmetallic conduit"
	SheathedCable      Raceway = "sheathed cable"
	ArmouredCable      Raceway = "armoured cable"
	Tray               Raceway = "tray"
	Busway             Raceway = "busway"
	Overhead           Raceway = "overhead"
)

// Raceways returns every known raceway, in the order of a list to pick from.
func Raceways() []Raceway {
	return []Raceway{SteelConduit, AluminiumConduit, NonmetallicConduit, SheathedCable, ArmouredCable, Tray, Busway, Overhead}
}

// Lay is how wires lie to each other in what holds them. The empty value is not known.
type Lay string

// The lays.
const (
	TightLay Lay = "tight" // a bundle that touches
	LooseLay Lay = "loose" // spread as far as what holds them lets them
)

// SwitchKind is what opens a feeder at its head. The empty value is nothing.
type SwitchKind string

// The switches.
const (
	Breaker    SwitchKind = "breaker"
	Fuse       SwitchKind = "fuse"
	Disconnect SwitchKind = "disconnect"
)

// SwitchData is the switch at the head of a feeder.
type SwitchData struct {
	Kind  SwitchKind
	Open  bool
	Rated float64 // A; 0 not known
	Poles int     // 0 not known

	Residual bool // a residual-current device
}

// Feeder is a run of conductors from the part that feeds to the part that is
// fed.
type Feeder struct {
	ID       ID
	Name     string
	Note     string
	From, To End
	Length   float64 // m
	Area     float64 // cross-section of one line conductor, m2; 0 not known
	Material Material
	Parallel int // conductors for each phase; 0 stands for 1
	Raceway  Raceway
	Lay      Lay // counts where HasLay
	Switch   SwitchData

	// What a maker's table gives of one conductor at the temperature and the
	// frequency of the system, ohm/m: half of the loop of two conductors, or what a
	// line of three has to neutral. Fault currents go by both. A surge goes by the
	// resistance alone, as that of the metal: its inductance is SurgeImpedance and
	// Velocity, or the make-up. 0 takes the value of a table for its size.
	Resistance, Reactance float64

	Constant float64 // C of the point-to-point method, ft/ohm, of one conductor; 0 takes that of a table. Nothing else goes by it

	SurgeImpedance float64 // ohm, of two of its conductors against each other; 0 takes that of its make-up
	Velocity       float64 // m/s, of a wave along it; 0 takes that of its make-up

	Extra string // as Part.Extra
}

// Touches reports whether the feeder ends at the part.
func (f Feeder) Touches(part ID) bool { return f.From.Part == part || f.To.Part == part }

// HasLay reports whether its wires lie as whoever pulled them left them: not in a
// cable, and not in metal, which carries their return wherever they lie.
func (f Feeder) HasLay() bool {
	return f.Raceway == "" || f.Raceway == NonmetallicConduit || f.Raceway == Tray
}

// Other returns the end that does not lie at the part.
func (f Feeder) Other(part ID) End {
	if f.From.Part == part {
		return f.To
	}
	return f.From
}
