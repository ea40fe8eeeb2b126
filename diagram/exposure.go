package diagram

// Occupancy is whom the building behind a supply serves. The empty value is
// not known.
type Occupancy string

// The occupancies: those that NFPA 70 and IEC 60364-4-44 clause 443 tell apart.
const (
	Dwelling      Occupancy = "dwelling"
	SleepingRooms Occupancy = "sleeping rooms" // dormitories, guest rooms of hotels, patient sleeping rooms of nursing homes
	HumanLife     Occupancy = "human life"     // medical care and safety services
	PublicService Occupancy = "public service" // and cultural heritage
	Commerce      Occupancy = "commerce or industry"
	Assembly      Occupancy = "many people" // large numbers of people in one place
	OtherUse      Occupancy = "other"
)

// Occupancies returns every occupancy, in the order of a list to pick from.
func Occupancies() []Occupancy {
	return []Occupancy{Dwelling, SleepingRooms, HumanLife, PublicService, Commerce, Assembly, OtherUse}
}

// Surroundings is where a building stands. The empty value is not known.
type Surroundings string

// The surroundings.
const (
	Rural    Surroundings = "rural"
	Suburban Surroundings = "suburban"
	Urban    Surroundings = "urban"
)

// SurroundingsKinds returns all surroundings, in the order of a list to pick
// from.
func SurroundingsKinds() []Surroundings { return []Surroundings{Rural, Suburban, Urban} }

// LightningSystem is whether the building has an external lightning protection
// system, and its level by IEC 62305-1. The empty value is not known.
type LightningSystem string

// The lightning protection systems.
const (
	NoLightningSystem LightningSystem = "none"
	LightningUnknown  LightningSystem = "present" // of a level that is not known
	LightningI        LightningSystem = "level I"
	LightningII       LightningSystem = "level II"
	LightningIII      LightningSystem = "level III"
	LightningIV       LightningSystem = "level IV"
)

// LightningSystems returns every kind, in the order of a list to pick from.
func LightningSystems() []LightningSystem {
	return []LightningSystem{NoLightningSystem, LightningUnknown, LightningI, LightningII, LightningIII, LightningIV}
}

// Present reports whether there is a lightning protection system.
func (l LightningSystem) Present() bool { return l != "" && l != NoLightningSystem }

// SurgeExposure is how often and how hard surges come over the supply. The
// empty value is not known.
type SurgeExposure string

// The exposures.
const (
	LowExposure    SurgeExposure = "low"
	MediumExposure SurgeExposure = "medium"
	HighExposure   SurgeExposure = "high"
)

// SurgeExposures returns every exposure, in the order of a list to pick from.
func SurgeExposures() []SurgeExposure {
	return []SurgeExposure{LowExposure, MediumExposure, HighExposure}
}

// Exposure is what the surroundings of a supply bring, and whom its building
// serves. A generator has none.
type Exposure struct {
	Occupancy    Occupancy
	Declined     bool // the owner of a single dwelling has declined protection
	Surges       SurgeExposure
	Lightning    LightningSystem
	Surroundings Surroundings
	FlashDensity float64 // ground flashes per square kilometre and year; 0 not known

	// The lines upstream, to the nearest overvoltage device or one kilometre, m.
	// Where all are 0 they are not known.
	LowOverhead, LowCable, HighOverhead, HighCable float64

	// Resistances to earth that share a flash to the building, ohm; 0 not known: the
	// building's electrode, the neutral of the supply as far as it is earthed elsewhere,
	// and other services together.
	Electrode, NeutralEarth, OtherEarth float64

	LinesEnd bool // an overvoltage device stands at the end of these lines; else what is missing to a kilometre is not known
}

// Use is what a board or load is for, where codes ask for a protector. The
// empty value is nothing in particular.
type Use string

// The uses.
const (
	EmergencyUse       Use = "emergency system"
	FirePumpUse        Use = "fire pump"
	ElevatorUse        Use = "elevator"       // escalators, moving walks and lifts too
	MachineSafetyUse   Use = "machine safety" // industrial machinery with safety circuits
	CriticalDataUse    Use = "critical data"  // critical operations data system
	CriticalPowerUse   Use = "critical power" // critical operations power system
	DwellingUnitUse    Use = "dwelling unit"  // feeds a dwelling unit
	SleepingRoomsUse   Use = "sleeping rooms" // feeds those of SleepingRooms
	WindTurbineFeedUse Use = "wind turbine"   // between a wind turbine and the loads
)

// Uses returns every use, in the order of a list to pick from.
func Uses() []Use {
	return []Use{
		EmergencyUse, FirePumpUse, ElevatorUse, MachineSafetyUse, CriticalDataUse, CriticalPowerUse,
		DwellingUnitUse, SleepingRoomsUse, WindTurbineFeedUse,
	}
}
