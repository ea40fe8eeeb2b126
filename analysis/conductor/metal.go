package conductor

// Resistivities at 20 °C, Ωm. The annealed metals go by IEC 60028 for copper and
// IEC 60889 for aluminium, the conductors of a cable, which are a little longer than
// it is and of harder metal, by IEC 60909-0; all from memory.
const (
	Copper, Aluminium           = 1.724e-8, 2.82e-8
	CableCopper, CableAluminium = 1e-6 / 54, 1e-6 / 34
)

// Foot is one in metres.
const Foot = 0.3048
