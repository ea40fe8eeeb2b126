package diagram

import (
	"slices"

	"clampline/diagram/unit"
)

// Every member of every record, in the order in which a file has them: its key,
// its range or words, what is usual of it, where it lies in the record; how a form
// labels it, what it is, and what nothing stands for.

const (
	notKnown      = "not known"
	sleepingRooms = "hotel, dormitory, ward" // as a person calls them in few words
)

// maxCount bounds what is counted.
const maxCount = 10_000

func kinds(of ...Kind) func(Kind) bool {
	return func(k Kind) bool { return slices.Contains(of, k) }
}

func isSystemStated(k Kind) bool {
	return k.IsSource() || k.IsBoard() || k == Transformer || k == Junction
}

// named are the fields that every record has that people name.
func named[R any](name, note func(*R) *string) []Field[R] {
	return []Field[R]{
		textField("name", name, "name", "What people call it"),
		textField("note", note, "note", "Anything worth knowing; nothing is computed from it"),
	}
}

func orderField[R any](at func(*R) *int, of string) Field[R] {
	out := countField("order", -maxCount, maxCount, at, "", of+" are listed by it, then by id")
	return out
}

// InfoFields returns the fields of the sheet as a whole.
func InfoFields() []Field[Info] { return infoFields }

var infoFields = slices.Concat(
	[]Field[Info]{
		textField("title", func(i *Info) *string { return &i.Title }, "title", "What the sheet is of"),
		textField("site", func(i *Info) *string { return &i.Site }, "site", "Where the installation stands"),
		textField("author", func(i *Info) *string { return &i.Author }, "drawn by", "Who drew the sheet"),
		textField("note", func(i *Info) *string { return &i.Note }, "note", "Anything worth knowing; nothing is computed from it"),
	},
	[]Field[Info]{
		countField("recheck", 0, 600, func(i *Info) *int { return &i.Recheck }, "months between checks", "From the installation of a protector, or the last look at it, to the next one; how many is common practice, no source", "12"),
	},
	inside("issue", "", func(i *Info) *Issue { return &i.Issue }, issueFields),
	inside("codes", "", func(i *Info) *Codes { return &i.Codes }, codesFields),
	inside("costs", "", func(i *Info) *Costs { return &i.Costs }, costsFields),
)

var issueFields = []Field[Issue]{
	textField("firm", func(i *Issue) *string { return &i.Firm }, "firm", "Whose name stands at the head of what is handed over"),
	textField("address", func(i *Issue) *string { return &i.Address }, "address", "Where that firm is to be found"),
	imageField("logo", func(i *Issue) *string { return &i.Logo }, "logo", "The firm's own picture, for the head of what is handed over: a PNG or JPEG, in base64", "none"),
	textField("number", func(i *Issue) *string { return &i.Number }, "sheet number", "What the sheet is filed under, such as E-1"),
	textField("revision", func(i *Issue) *string { return &i.Revision }, "revision", "Which state of the sheet is handed over, such as 1 or B"),
	textField("date", func(i *Issue) *string { return &i.Date }, "date of issue", "The day on which it is handed over, as people write it"),
}

var codesFields = []Field[Codes]{
	wordField("practice", []Practice{NECPractice, IECPractice}, func(c *Codes) *Practice { return &c.Practice }, "practice", "Whose rules count: “NEC” are NFPA 70 and UL 1449, “IEC” IEC 60364 and IEC 61643-11", "what the earthing of the sources suggests"),
	stands(Surges2002, spoken(wordField("surges", []SurgeEdition{Surges2002, Surges1991}, func(c *Codes) *SurgeEdition { return &c.Surges }, "surges at the service", "Which edition of IEEE C62.41 says what arrives over the supply, where the rules of NFPA 70 count", "the edition of 2002"), "IEEE C62.41.2-2002", "IEEE C62.41-1991")),
	wordField("nec", NECEditions(), func(c *Codes) *NECEdition { return &c.NEC }, "NEC edition", "Year of the edition of NFPA 70", "newest known ("+string(NECEditions()[0])+")"),
	stands(UcNewer, spoken(wordField("uc", []UcTable{UcNewer, UcOlder}, func(c *Codes) *UcTable { return &c.Uc }, "least Uc", "Which form of the table of the least continuous voltage of IEC 60364-5-53 clause 534 counts: “newer” from 2015 on, “older” before", "newer"), "by the table from 2015", "by the older table")),
	stands(ByRiskLevel, spoken(wordField("risk", []RiskMethod{ByRiskLevel, ByDefault}, func(c *Codes) *RiskMethod { return &c.Risk }, "need for protection", "How the need for protection is found by IEC 60364-4-44 clause 443", "the calculated risk level"), "calculated risk level", "unless declined")),
	stands(ComplexSum, spoken(wordField("fault", []FaultMethod{ComplexSum, PointToPoint}, func(c *Codes) *FaultMethod { return &c.Fault }, "fault currents", "How fault currents are added up", "the complex sum"), "by impedances", "by the point-to-point method")),
	measured(numberField("tolerance", tolerances, NoFigure, func(c *Codes) *float64 { return &c.Tolerance }, "impedance tolerance", "How far the impedance of a transformer may lie below its nameplate: more current flows into a fault then", "as on the nameplate"), unit.Percent),
}

// measured returns a number of which no usual range is known, and of what it is one.
func measured[R any](f Field[R], d unit.Dimension) Field[R] {
	f.Measures = d
	return f
}

// PlanFields returns the fields of a plan.
func PlanFields() []Field[Plan] { return planFields }

var planFields = append(named(func(p *Plan) *string { return &p.Name }, func(p *Plan) *string { return &p.Note }),
	textField("purpose", func(p *Plan) *string { return &p.Purpose }, "what it is for", "What the plan is for, in a few words"),
	dateField("date", func(p *Plan) *string { return &p.Date }, "date", "Of which day the plan is", "not stated"),
	textField("author", func(p *Plan) *string { return &p.Author }, "made by", "Who made the plan"),
	flagField("locked", func(p *Plan) *bool { return &p.Locked }, "", "Its protectors stay as they are until it is unlocked"),
	idField("of", func(p *Plan) *ID { return &p.Of }, "", "The id of the plan that was carried out, where this one records what was built of it"),
	orderField(func(p *Plan) *int { return &p.Order }, "Plans"))

// PartFields returns the fields of a part of any kind.
func PartFields() []Field[Part] { return partFields }

var partFields = slices.Concat(
	[]Field[Part]{needed(wordField("kind", Kinds(), func(p *Part) *Kind { return &p.Kind }, "", "What the part is"))},
	named(func(p *Part) *string { return &p.Name }, func(p *Part) *string { return &p.Note }),
	[]Field[Part]{
		always(measured(numberField("at.x", places, NoFigure, func(p *Part) *float64 { return &p.At.X }, "", "Of the middle of the symbol, to the right"), unit.Ratio)),
		always(measured(numberField("at.y", places, NoFigure, func(p *Part) *float64 { return &p.At.Y }, "", "Of the middle of the symbol, downward"), unit.Ratio)),
		countField("turn", 0, 3, func(p *Part) *int { return &p.Turn }, "", "Quarter turns clockwise"),
		measured(numberField("span", spans, NoFigure, func(p *Part) *float64 { return &p.Span }, "", "Length of a bus bar or width of a note", "the usual size"), unit.Ratio),
	},
	of(isSystemStated, inside("system", "", func(p *Part) *System { return &p.System }, systemFields)),
	of(Kind.IsSource, subtransient(inside("source", "", func(p *Part) *SourceData { return &p.Source }, sourceFields))),
	of(kinds(TransferSwitch), inside("transfer", "", func(p *Part) *TransferData { return &p.Transfer }, transferFields)),
	of(kinds(Transformer), inside("transformer", "", func(p *Part) *TransformerData { return &p.Transformer }, transformerFields)),
	of(Kind.IsBoard, inside("board", "", func(p *Part) *BoardData { return &p.Board }, boardFields)),
	of(kinds(Load), inside("load", "", func(p *Part) *LoadData { return &p.Load }, loadFields)),
	of(Kind.IsJudged, inside("withstand", "", func(p *Part) *Withstand { return &p.Withstand }, withstandFields)),
	of(kinds(Supply), inside("exposure", "", func(p *Part) *Exposure { return &p.Exposure }, exposureFields)),
	of(Kind.IsJudged, []Field[Part]{spoken(wordField("use", Uses(), func(p *Part) *Use { return &p.Use }, "used for", "What it is for, where codes ask for a protector: “elevator” are escalators, moving walks and lifts too, “machine safety” is industrial machinery with safety circuits, “wind turbine” what lies between one and the loads", "nothing in particular"), string(EmergencyUse), string(FirePumpUse), "elevator, escalator|lift, escalator", "machine safety circuits", "critical data system", "critical power system", string(DwellingUnitUse), sleepingRooms)}),
)

var systemFields = []Field[System]{
	spoken(wordField("wiring", Wirings(), func(s *System) *Wiring { return &s.Wiring }, "wiring", "How the line conductors stand to each other", notKnown), "single phase", "split phase", "two lines of a wye|two lines of a star", "three-phase wye|three-phase star", "three-phase delta", "high-leg delta"),
	numberField("voltage", rmsVoltages, UsualSystemVoltage, func(s *System) *float64 { return &s.Voltage }, "voltage", "Nominal voltage between lines, or from line to neutral where there is one line", notKnown),
	flagField("neutral", func(s *System) *bool { return &s.Neutral }, "neutral conductor", "A neutral conductor is present"),
	spoken(wordField("earthing", Earthings(), func(s *System) *Earthing { return &s.Earthing }, "grounding", "How the system stands to earth: “solid” is the North American solidly earthed system; the TN forms, TT and IT are those of IEC 60364-1", notKnown), "solidly grounded", "high-resistance grounded|earthed through an impedance", "corner grounded|one line earthed", "ungrounded"),
	numberField("frequency", frequencies, UsualFrequency, func(s *System) *float64 { return &s.Frequency }, "frequency", "Of the voltage of the system", notKnown),
}

var sourceFields = []Field[SourceData]{
	numberField("faultCurrent", currents, UsualFault, func(s *SourceData) *float64 { return &s.FaultCurrent }, "three-phase fault current", "Current into a fault of all lines at its terminals (of the two, of a split phase), rms symmetrical", notKnown),
	numberField("earthFaultCurrent", currents, UsualEarthFault, func(s *SourceData) *float64 { return &s.EarthFaultCurrent }, "line-to-ground fault current", "Current into a fault from one line to earth at its terminals, rms symmetrical", notKnown),
	numberField("xr", ratios, UsualXR, func(s *SourceData) *float64 { return &s.XR }, "X / R", "Reactance over resistance", notKnown),
	numberField("power", gridPowers, UsualPower, func(s *SourceData) *float64 { return &s.Power }, "rating", "That of a generator, or of the transformer that a supply comes from", notKnown),
	numberField("reactance", reactances, UsualImpedance, func(s *SourceData) *float64 { return &s.Reactance }, "impedance", "On that rating: the subtransient reactance of a generator, or the impedance of the transformer that a supply comes from", notKnown),
}

// subtransient tells the reactance of a generator from the impedance of a transformer.
func subtransient(fields []Field[Part]) []Field[Part] {
	FieldOf(fields, "source.reactance").figure = func(p *Part) Figure {
		if p.Kind == Generator {
			return UsualSubtransient
		}
		return UsualImpedance
	}
	return fields
}

var transferFields = []Field[TransferData]{
	stands(ToNormal, wordField("position", []Position{ToNormal, ToEmergency}, func(t *TransferData) *Position { return &t.Position }, "position", "The side it takes its supply from", "normal")),
	flagField("switchesNeutral", func(t *TransferData) *bool { return &t.SwitchesNeutral }, "switches the neutral", "It switches the neutral with the lines"),
}

var transformerFields = slices.Concat(
	[]Field[TransformerData]{numberField("power", powers, UsualPower, func(t *TransformerData) *float64 { return &t.Power }, "rating", "What it is rated for", notKnown)},
	inside("primary", "primary", func(t *TransformerData) *System { return &t.Primary }, systemFields),
	[]Field[TransformerData]{
		numberField("impedance", perCents, UsualImpedance, func(t *TransformerData) *float64 { return &t.Impedance }, "impedance", "Its short-circuit impedance, on its rating, as on the nameplate", notKnown),
		numberField("xr", ratios, UsualXR, func(t *TransformerData) *float64 { return &t.XR }, "X / R", "Reactance over resistance", notKnown),
		flagField("screen", func(t *TransformerData) *bool { return &t.Screen }, "electrostatic screen", "An earthed electrostatic screen lies between the windings"),
		flagField("auto", func(t *TransformerData) *bool { return &t.Auto }, "autotransformer", "One winding serves both sides"),
	},
)

var boardFields = []Field[BoardData]{
	numberField("rating", ratings, UsualBusRating, func(b *BoardData) *float64 { return &b.Rating }, "bus rating", "What its bus bars are rated for", notKnown),
	numberField("mainBreaker", ratings, UsualMainBreaker, func(b *BoardData) *float64 { return &b.MainBreaker }, "main breaker", "What the breaker at its head is rated for", "lugs only or not known"),
	countField("spaces", 0, maxCount, func(b *BoardData) *int { return &b.Spaces }, "spaces", "Places for poles in all", notKnown),
	countField("freeSpaces", 0, maxCount, func(b *BoardData) *int { return &b.FreeSpaces }, "free spaces", "Places for poles that nothing takes", "none or not known"),
	wordField("mounting", []Mounting{Surface, Flush}, func(b *BoardData) *Mounting { return &b.Mounting }, "mounting", "How it sits in its wall", notKnown),
	flagField("service", func(b *BoardData) *bool { return &b.Service }, "service disconnect", "It holds the service disconnect"),
	flagField("bonded", func(b *BoardData) *bool { return &b.Bonded }, "neutral bonded to ground", "The neutral is bonded to earth in this board"),
	flagField("structure", func(b *BoardData) *bool { return &b.Structure }, "first in another building", "It is the first board of another building or structure"),
	numberField("faultCurrent", currents, UsualFault, func(b *BoardData) *float64 { return &b.FaultCurrent }, "fault current", "As marked on it or told on site, rms symmetrical", notKnown),
	textField("freePositions", func(b *BoardData) *string { return &b.FreePositions }, "free positions", "Which of its spaces are free, as numbered there", notKnown),
	textField("shortLead", func(b *BoardData) *string { return &b.ShortLead }, "short leads at", "Where a protector could sit with short leads", notKnown),
	textField("photos", func(b *BoardData) *string { return &b.Photos }, "photos", "Names of the files, with commas between", "none"),
}

var loadFields = []Field[LoadData]{
	wordField("connection", []Connection{ToNeutral, BetweenLines, ThreeWire, ThreeWireStar}, func(l *LoadData) *Connection { return &l.Connection }, "connection", "Between which conductors the load is connected", "as the bus"),
	numberField("voltage", rmsVoltages, UsualLoadVoltage, func(l *LoadData) *float64 { return &l.Voltage }, "rated voltage", "What it is made for, across its terminals", "that of the bus"),
	numberField("power", powers, UsualLoadPower, func(l *LoadData) *float64 { return &l.Power }, "power", "What it is rated for", notKnown),
	flagField("critical", func(l *LoadData) *bool { return &l.Critical }, "critical equipment", "Its loss matters more than that of others"),
	flagField("motor", func(l *LoadData) *bool { return &l.Motor }, "motor without a drive", "It is a motor without a drive, which feeds a fault for some cycles"),
	spoken(wordField("terminals", TerminalKinds(), func(l *LoadData) *Terminals { return &l.Terminals }, "load during a surge", "What a surge meets at its terminals: “resistive” is its power as a resistance, “filtered” are electronics behind filter capacitors. Where it is not known, the worse of open and an input filter counts at each place; a motor without a drive is open", notKnown), "takes nothing", "acts as a resistor", "acts as an input filter"),
	spoken(wordField("switching", Switchings(), func(l *LoadData) *Switching { return &l.Switching }, "makes surges like", "How high the surges are that it makes itself when it switches; “contactors” are a motor drive or a welder too. Where it is not stated, a motor counts as contactors and any other load as ordinary", "by what it is"), "an ordinary load", "contactors, drive, welder", "a capacitor bank"),
}

var withstandFields = []Field[Withstand]{
	spoken(wordField("kind", []WithstandKind{ByCategory, ByMultiple, ByVolts}, func(w *Withstand) *WithstandKind { return &w.Kind }, "withstand by", "The way in which the surge that it stands is stated", notKnown), "overvoltage category", "multiple of nominal", "volts"),
	countsBy(ByCategory, countField("category", 0, 4, func(w *Withstand) *int { return &w.Category }, "category", "Overvoltage category of IEC 60664-1, I to IV: how high a surge equipment at such a place stands")),
	countsBy(ByMultiple, numberField("multiple", multiples, UsualMultiple, func(w *Withstand) *float64 { return &w.Multiple }, "times nominal crest", "In multiples of the crest of the nominal voltage across the mode", notKnown)),
	countsBy(ByVolts, numberField("volts", voltages, UsualWithstand, func(w *Withstand) *float64 { return &w.Volts }, "withstand", "Crest of the surge that it stands", notKnown)),
}

// countsBy returns the field as one that counts where the withstand is stated so.
func countsBy(kind WithstandKind, f Field[Withstand]) Field[Withstand] {
	f.counts = func(w *Withstand) bool { return w.Kind == kind }
	return f
}

var exposureFields = []Field[Exposure]{
	spoken(wordField("occupancy", Occupancies(), func(e *Exposure) *Occupancy { return &e.Occupancy }, "occupancy|building serves", "Whom the building serves: “sleeping rooms” are dormitories, guest rooms of hotels and patient sleeping rooms of nursing homes, “human life” is medical care and safety services, “public service” includes cultural heritage, “many people” is large numbers of people in one place", notKnown), "dwelling", sleepingRooms, "medical care, safety", "public service, heritage", "commerce or industry", "many people in one place", "something else"),
	flagField("declined", func(e *Exposure) *bool { return &e.Declined }, "owner has declined", "The owner of a single dwelling has declined protection"),
	wordField("surges", SurgeExposures(), func(e *Exposure) *SurgeExposure { return &e.Surges }, "surge exposure", "How often and how hard surges come over the supply", notKnown),
	spoken(wordField("lightning", LightningSystems(), func(e *Exposure) *LightningSystem { return &e.Lightning }, "lightning protection", "The external lightning protection system of the building, with its level by IEC 62305-1; “present” is of a level that is not known", notKnown), "none", "present, level not known"),
	wordField("surroundings", SurroundingsKinds(), func(e *Exposure) *Surroundings { return &e.Surroundings }, "surroundings", "Where the building stands", notKnown),
	numberField("flashDensity", flashes, UsualFlashes, func(e *Exposure) *float64 { return &e.FlashDensity }, "lightning flashes", "Flashes to the ground, by area and year", notKnown),
	lineField("lowOverhead", "low-voltage overhead", func(e *Exposure) *float64 { return &e.LowOverhead }, "Length of low-voltage overhead line upstream, to the nearest overvoltage device or one kilometre; where all four lengths are 0 they are not known"),
	lineField("lowCable", "low-voltage cable", func(e *Exposure) *float64 { return &e.LowCable }, "The same of low-voltage cable in the ground"),
	lineField("highOverhead", "high-voltage overhead", func(e *Exposure) *float64 { return &e.HighOverhead }, "The same of high-voltage overhead line"),
	lineField("highCable", "high-voltage cable", func(e *Exposure) *float64 { return &e.HighCable }, "The same of high-voltage cable in the ground"),
	measured(numberField("electrode", earthings, NoFigure, func(e *Exposure) *float64 { return &e.Electrode }, "building's electrode", "Resistance to earth of the building's own electrode, which shares a flash to the building", notKnown), unit.Resistance),
	measured(numberField("neutralEarth", earthings, NoFigure, func(e *Exposure) *float64 { return &e.NeutralEarth }, "supply's neutral to ground", "The same of the neutral of the supply, as far as it is earthed elsewhere", notKnown), unit.Resistance),
	measured(numberField("otherEarth", earthings, NoFigure, func(e *Exposure) *float64 { return &e.OtherEarth }, "other services to ground", "The same of metal pipes and other lines that enter, all together", "none or not known"), unit.Resistance),
	flagField("linesEnd", func(e *Exposure) *bool { return &e.LinesEnd }, "ends at a surge arrester", "An overvoltage device stands at the end of these lines; else what is missing to a kilometre is not known"),
}

func lineField(key, of string, at func(*Exposure) *float64, help string) Field[Exposure] {
	out := numberField(key, lengths, UsualUpstreamLine, at, "line", help)
	out.Of = of
	return out
}

// FeederFields returns the fields of a feeder.
func FeederFields() []Field[Feeder] { return feederFields }

var feederFields = slices.Concat(
	named(func(f *Feeder) *string { return &f.Name }, func(f *Feeder) *string { return &f.Note }),
	inside("from", "", func(f *Feeder) *End { return &f.From }, endFields),
	inside("to", "", func(f *Feeder) *End { return &f.To }, endFields),
	[]Field[Feeder]{
		numberField("length", lengths, UsualFeederLength, func(f *Feeder) *float64 { return &f.Length }, "length", "How long its conductors are from end to end"),
		numberField("area", areas, UsualConductor, func(f *Feeder) *float64 { return &f.Area }, "conductor", "Cross-section of one line conductor", notKnown),
		stands(Copper, wordField("material", []Material{Copper, Aluminium}, func(f *Feeder) *Material { return &f.Material }, "material", "What the conductors are made of", "copper")),
		countField("parallel", 0, 100, func(f *Feeder) *int { return &f.Parallel }, "conductors per phase", "Conductors for each phase", "1"),
		wordField("raceway", Raceways(), func(f *Feeder) *Raceway { return &f.Raceway }, "raceway or cable", "What holds the conductors", notKnown),
		layField(),
	},
	inside("switch", "", func(f *Feeder) *SwitchData { return &f.Switch }, switchFields),
	[]Field[Feeder]{
		numberField("resistance", resistances, UsualResistance, func(f *Feeder) *float64 { return &f.Resistance }, "resistance", "Of one conductor, from its maker's table", "from a table, by its size"),
		numberField("reactance", inductives, UsualReactance, func(f *Feeder) *float64 { return &f.Reactance }, "reactance", "Of one conductor at the frequency of the system, from its maker's table", "from a table, by its size"),
		numberField("constant", constants, UsualConstant, func(f *Feeder) *float64 { return &f.Constant }, "C, point to point", "C of the point-to-point method for one conductor", "from a table, by its size"),
		numberField("surgeImpedance", impedances, UsualSurgeImpedance, func(f *Feeder) *float64 { return &f.SurgeImpedance }, "surge impedance", "Voltage over current of a surge that travels along it between two of its conductors", "from its make-up"),
		numberField("velocity", velocities, UsualWaveSpeed, func(f *Feeder) *float64 { return &f.Velocity }, "wave speed", "How fast a surge travels along it", "from its make-up"),
	},
)

func layField() Field[Feeder] {
	f := wordField("lay", []Lay{TightLay, LooseLay}, func(f *Feeder) *Lay { return &f.Lay }, "lay of the wires", "How the wires lie to each other in a nonmetallic conduit or on a tray, where a surge sees more inductance the farther apart they are: “tight” is a bundle that touches, “loose” spread out", notKnown)
	f.counts = func(f *Feeder) bool { return f.HasLay() }
	return spoken(f, "tight bundle", "loose")
}

var endFields = []Field[End]{
	needed(idField("part", func(e *End) *ID { return &e.Part }, "", "The id of the part")),
	related(wordField("port", []Port{Primary, Secondary, Normal, Emergency, Common}, func(e *End) *Port { return &e.Port }, "", "The terminal, of a part that has several: “primary” or “secondary” of a transformer; “normal”, “emergency” or “load” of a transfer switch")),
}

var switchFields = []Field[SwitchData]{
	wordField("kind", []SwitchKind{Breaker, Fuse, Disconnect}, func(s *SwitchData) *SwitchKind { return &s.Kind }, "kind", "What opens it at its head", "none"),
	flagField("open", func(s *SwitchData) *bool { return &s.Open }, "open", "It stands open: nothing is fed through it"),
	numberField("rated", ratings, UsualSwitch, func(s *SwitchData) *float64 { return &s.Rated }, "rated current", "What it is rated for", notKnown),
	countField("poles", 0, 4, func(s *SwitchData) *int { return &s.Poles }, "poles", "How many conductors it opens", notKnown),
	flagField("residual", func(s *SwitchData) *bool { return &s.Residual }, "ground-fault protection|residual-current device", "It is a residual-current device"),
}

// ProtectorFields returns the fields of a protector. Those that are Placed say
// where it stands: a protector of a library has none of them.
func ProtectorFields() []Field[Protector] { return protectorFields }

var protectorFields = slices.Concat(
	[]Field[Protector]{
		placed(needed(idField("plan", func(p *Protector) *ID { return &p.Plan }, "", "The id of the plan it belongs to"))),
		placed(needed(idField("bus", func(p *Protector) *ID { return &p.Bus }, "", "The id of the switchboard, panel, junction or load it is attached to"))),
	},
	named(func(p *Protector) *string { return &p.Name }, func(p *Protector) *string { return &p.Note }),
	[]Field[Protector]{
		placed(measured(numberField("offset", offsets, NoFigure, func(p *Protector) *float64 { return &p.Offset }, "", "Along the bus bar from its middle"), unit.Ratio)),
		wordField("type", Types(), func(p *Protector) *Type { return &p.Type }, "type or class", "Type of UL 1449 or class of IEC 61643-11", notKnown),
		stands(VPR, spoken(wordField("rating", []Rating{VPR, Up}, func(p *Protector) *Rating { return &p.Rating }, "stated as", "Which measured voltage the nameplate states", "VPR"), "VPR, with 6 in of lead", "Up, at its terminals")),
	},
	inside("system", "", func(p *Protector) *System { return &p.System }, systemFields),
	modesFields(),
	[]Field[Protector]{
		numberField("in", currents, UsualIn, func(p *Protector) *float64 { return &p.In }, "In", "Nominal discharge current", notKnown),
		numberField("imax", currents, UsualImax, func(p *Protector) *float64 { return &p.Imax }, "Imax", "Maximum discharge current", notKnown),
		numberField("iimp", currents, UsualIimp, func(p *Protector) *float64 { return &p.Iimp }, "Iimp", "Impulse discharge current", notKnown),
		numberField("sccr", currents, UsualSCCR, func(p *Protector) *float64 { return &p.SCCR }, "SCCR", "Short-circuit current rating, rms symmetrical", notKnown),
	},
	inside("breaker", "", func(p *Protector) *BreakerData { return &p.Breaker }, breakerFields),
	[]Field[Protector]{flagField("external", func(p *Protector) *bool { return &p.External }, "outside the board", "It is in an enclosure of its own, outside the board")},
	inside("leads", "", func(p *Protector) *Leads { return &p.Leads }, leadsFields),
	inside("installed", "", func(p *Protector) *Installed { return &p.Installed }, installedFields),
	[]Field[Protector]{
		measured(numberField("price", prices, NoFigure, func(p *Protector) *float64 { return &p.Price }, "price", "In whatever currency the sheet is priced", notKnown), unit.Money),
		numberField("hours", hours, UsualHours, func(p *Protector) *float64 { return &p.Hours }, "labour", "Working time that installing it takes", notKnown),
		textField("catalogue", func(p *Protector) *string { return &p.Catalogue }, "catalogue text", "By what its seller lists it: for your own library, from which what you place has it"),
	},
)

// modesFields are those of the modes; a mode that is connected is there in a file.
func modesFields() []Field[Protector] {
	var out []Field[Protector]
	for _, mode := range Modes() {
		out = append(out, inside("modes."+mode.String(), mode.String(), func(p *Protector) *ModeRating { return &p.Modes[mode] }, modeFields)...)
	}
	return out
}

var modeFields = []Field[ModeRating]{
	present(flagField("connected", func(m *ModeRating) *bool { return &m.Connected }, "connected", "False where the numbers are known but the mode is not connected")),
	measured(numberField("level", voltages, UsualLevel, func(m *ModeRating) *float64 { return &m.Level }, "level", "Let-through voltage on the nameplate, VPR or Up", notKnown), unit.Voltage),
	numberField("mcov", rmsVoltages, UsualMCOV, func(m *ModeRating) *float64 { return &m.MCOV }, "MCOV", "Maximum continuous operating voltage, MCOV or Uc", notKnown),
	flagField("switching", func(m *ModeRating) *bool { return &m.Switching }, "gap", "What protects in this mode is a spark gap or gas tube rather than a varistor"),
}

var breakerFields = []Field[BreakerData]{
	numberField("rated", ratings, UsualBreaker, func(b *BreakerData) *float64 { return &b.Rated }, "rated current", "What the breaker or fuse that feeds the protector is rated for", "none, or not known"),
	countField("poles", 0, 4, func(b *BreakerData) *int { return &b.Poles }, "poles", "How many poles that overcurrent device has", notKnown),
	flagField("shared", func(b *BreakerData) *bool { return &b.Shared }, "breaker shared with other loads", "That breaker or fuse feeds something else too"),
	belongs("least", numberField("least", ratings, UsualBreaker, func(b *BreakerData) *float64 { return &b.Least }, "needs at least", "The least rating that the protector asks for, so that its surges do not trip it", "not stated")),
	belongs("largest", numberField("most", ratings, UsualBreaker, func(b *BreakerData) *float64 { return &b.Most }, "allows at most", "The largest rating with which the protector fails safely", "not stated")),
}

var leadsFields = slices.Concat(
	inside("phase", "phase", func(l *Leads) *Lead { return &l.Phase }, leadFields("phase lead", "phase size")),
	inside("neutral", "neutral", func(l *Leads) *Lead { return &l.Neutral }, leadFields("neutral lead", "neutral size")),
	inside("earth", "earth", func(l *Leads) *Lead { return &l.Earth }, leadFields("earth lead", "earth lead size")),
	[]Field[Leads]{
		stands(Separate, spoken(wordField("run", []Run{Separate, Bundled, Twisted}, func(l *Leads) *Run { return &l.Run }, "leads run", "How the leads lie to each other: the closer, the lower their voltage", "apart"), "apart", "bundled", "twisted")),
		countField("bends", 0, maxCount, func(l *Leads) *int { return &l.Bends }, "sharp bends", "Bends of a right angle or more in its leads", "none"),
		countField("coils", 0, maxCount, func(l *Leads) *int { return &l.Coils }, "coils", "Full turns of slack in its leads", "none"),
		flagField("steel", func(l *Leads) *bool { return &l.Steel }, "in a steel raceway", "The earth lead runs in a steel raceway"),
		flagField("steelBonded", func(l *Leads) *bool { return &l.SteelBonded }, "bonded at both ends", "That raceway is bonded to the earth lead at both ends"),
	},
)

func leadFields(length, area string) []Field[Lead] {
	return []Field[Lead]{
		measured(numberField("length", leadLengths, UsualLeadLength, func(l *Lead) *float64 { return &l.Length }, length, "Length of that conductor from the bus to the protector, along its way"), unit.LeadLength),
		numberField("area", areas, UsualLeadSize, func(l *Lead) *float64 { return &l.Area }, area, "Cross-section of that conductor", notKnown),
	}
}

// stands returns the field with the word that none stands for.
func stands[R any, T ~string](word T, f Field[R]) Field[R] {
	f.Default = string(word)
	return f
}

// spoken returns the field with what people say for its words, in their order.
func spoken[R any](f Field[R], words ...string) Field[R] {
	f.spoken = words
	return f
}

func needed[R any](f Field[R]) Field[R] {
	f.Needed = true
	return f
}

func always[R any](f Field[R]) Field[R] {
	f.Always = true
	return f
}

// related is a word that another record decides on.
func related[R any](f Field[R]) Field[R] {
	f.Sort = SortID
	return f
}

func placed[R any](f Field[R]) Field[R] {
	f.Placed = true
	return f
}

func present[R any](f Field[R]) Field[R] {
	f.Presence = true
	return f
}

func belongs[R any](to string, f Field[R]) Field[R] {
	f.Of = to
	return f
}

// of returns fields that only some kinds of part have.
func of(fits func(Kind) bool, fields []Field[Part]) []Field[Part] {
	for i := range fields {
		fields[i].Fits = fits
	}
	return fields
}
