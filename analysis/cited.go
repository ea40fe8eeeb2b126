package analysis

// Standing tells how far what is taken from a source can be relied on.
type Standing string

// The standings.
const (
	AsRead      Standing = "read, in the text itself or where it is quoted in public"
	CheckIt     Standing = "named by public copies and summaries; " + CheckEdition
	FromMemory  Standing = "from memory; " + CheckEdition
	NobodysText Standing = CommonPractice
)

// Cited is a source that findings, workings and assumptions name.
type Cited struct {
	Name     string // as it is named there, without edition and clause
	Taken    string // what is taken from it
	Standing Standing
}

// Sources returns every source that the program names, those of the codes first,
// then those of products, of installations' figures, of surges, and of the trade. A
// source of which some things were read and others recalled stands there twice.
func Sources() []Cited { return cited[:] }

var cited = [...]Cited{
	{"NFPA 70", "where a protector is asked for, of which type, between which conductors, with which leads and short-circuit rating, by the edition of 2017, 2020 or 2023", CheckIt},
	{"NFPA 70 chapter 9 table 9", "resistance and reactance of conductors at 75 °C and 60 Hz", AsRead},
	{"NFPA 70 chapter 9 table 1", "conduits filled to 40 %, for how far apart loose wires lie", FromMemory},
	{"NFPA 70 chapter 9 table 8", "the largest conductors, 2000 kcmil, for what is usual", FromMemory},
	{"NFPA 780", "protectors at the service of a building with a lightning protection system, In of 20 kA at least, and where conductors leave it", FromMemory},
	{"IEC 60364-1", "the names of earthings: TN-S, TN-C, TN-C-S, TT, IT", FromMemory},
	{"IEC 60364-4-44", "clause 443: where protection is needed, and the calculated risk level; table 443.2: 6 kV of category IV; clause 444: bonds at a transfer switch", FromMemory},
	{"IEC 60364-5-53", "clause 534 of amendment 2: classes, connection, Uc, leads, the device ahead of a protector, 10 m of wiring", CheckIt},
	{"IEC 60364-5-52", "the least conductor for power, for what is usual", FromMemory},
	{"IEC 60364-5-54", "one conductor for neutral and earth does not become two and one again", FromMemory},
	{"HD 60364-5-534", "where the tables of IEC 60364-5-53 stand in the European text", FromMemory},
	{"OVE-Fachinformation E09", "the 10 m within which a protector covers equipment", AsRead},
	{"BS 7671", "protection as the rule, that an owner of a single dwelling may decline", FromMemory},
	{"DIN VDE 0100-534", "1 kV for each metre of lead of a protector rated by Up", FromMemory},
	{"IEC 62305-1", "currents of a strike by level of protection, and how much of it enters the supply", FromMemory},
	{"IEC 62305-3", "bonding of a supply in a building with a lightning protection system", FromMemory},
	{"IEC 62305-4", "a bus is Held up to 80 % of its withstand", FromMemory},

	{"UL 1449", "types, values of VPR, six inches of lead in the test, protectors beyond 30 ft, up to which voltage it counts", FromMemory},
	{"UL 1449, summary of the 3rd edition", "values of In", AsRead},
	{"IEC 61643-11", "classes, definitions of In, Imax and Iimp, temporary overvoltage, charge of a wave, up to which voltage it counts", FromMemory},
	{"IEC 61643-11, summary", "preferred values of In and Iimp", AsRead},
	{"IEC 61643-12", "1 kV for each metre of lead, and how much wiring two protectors want between them", FromMemory},
	{"IEC 60664-1", "table F.1: rated impulse voltage by category and voltage", AsRead},
	{"IEC 60664-1", "that rated impulse voltages begin at 330 V", FromMemory},
	{"IEC 60060-1", "the waves 8/20 and 10/350", FromMemory},
	{"IEC 61051-2", "tolerance of the voltage of varistors", FromMemory},
	{"ITU-T K.12", "10 to 25 V across the arc of a gas tube", FromMemory},
	{"ITIC curve", "what electronic equipment withstands, in per cent of the nominal crest", AsRead},
	{"ANSI C84.1", "range B: the highest voltage of a system in use", FromMemory},
	{"P. Kronberger, thesis, Graz University of Technology, 1994/95", "typical curves of varistors", AsRead},
	{"F. D. Martzloff and J.-S. Lai, Cascading surge-protective devices: coordination versus the IEC 664 staircase, 1991", "two protectors near each other, of which the smaller takes the surge", AsRead},
	{"UFC 3-520-01", "up to which 8/20 current breakers stay closed", AsRead},

	{"IEEE 141", "driving voltage, motors, half of a centre-tapped winding, generators", FromMemory},
	{"IEEE C37.13", "offset of a fault current at the first half cycle", FromMemory},
	{"UL 489", "power factor by fault current, for the X/R of a source", FromMemory},
	{"IEC 60947-2", "table 11: the same by the practice of IEC", FromMemory},
	{"IEC 60909-0", "voltage factor, generators, motors, first peak, resistivity", FromMemory},
	{"IEC 60076-5", "table 1: least impedance of transformers", FromMemory},
	{"IEC 60228", "the least conductors, for what is usual", FromMemory},
	{"UTE C 15-500", "windings rated 1.05 times the nominal voltage at no load", FromMemory},
	{"scribd.com/document/277587072", "a utility's published list of the impedance of its transformers", AsRead},
	{"scribd.com/document/325386963", "a plan review's example of the point-to-point method, with one constant", AsRead},
	{"point-to-point method", "handbooks' way to a fault current, and their other constants", FromMemory},
	{"Grainger and Stevenson, Power System Analysis", "table A.2: zero-sequence reactance of generators", FromMemory},

	{"IEEE C62.41.2", "surges at a service and inside: combination wave and ring wave by location; the usual ones over the supply", FromMemory},
	{"IEEE C62.41-1991", "the same in the edition before, by exposure; its steps are the usual surges born inside, and its distances the location categories", FromMemory},
	{"IEC 61000-4-5", "levels of the surge test, which are the usual surges born inside by IEC practice, and the tolerance of its generator", FromMemory},
	{"IEC 61000-4-4", "levels of the burst test", FromMemory},
	{"Chakrabarti, Soni, Gupta, Bhatnagar, A Textbook on Power System Engineering", "examples 2.15.1 and 2.15.2: the rise of a voltage with distance from a protector", AsRead},

	{"common practice", "25 V for each inch of lead beyond six, usual ranges of figures, what a load takes during a surge, and all else that is marked so", NobodysText},
}
