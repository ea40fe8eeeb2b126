package details

import (
	"slices"
	"testing"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// setting is one thing that a person enters and what must come of it.
type setting struct {
	row   string
	enter string
	field string // the only places that change, or that what changes lies in
	want  any    // there
}

// subject is a record and all that can be entered for it.
type subject struct {
	name     string
	check    func(t *testing.T, c unit.Convention, settings []setting)
	settings []setting
}

var wye = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}

func preset(name string) diagram.System {
	for _, p := range diagram.Presets() {
		if p.Name == name {
			return p.System
		}
	}
	panic("no preset " + name)
}

// system is what can be entered for a system at a place of a record that holds
// 480Y/277 V.
func system(heading, field string) []setting {
	return []setting{
		{heading + "System", "208Y/120 V", field, preset("208Y/120 V")},
		{heading + "Wiring", "three-phase delta", field + ".Wiring", diagram.Delta},
		{heading + "Voltage", "600", field + ".Voltage", 600.0},
		{heading + "Neutral conductor", "no", field + ".Neutral", false},
		{heading + "Grounding", "ungrounded", field + ".Earthing", diagram.Unearthed},
		{heading + "Frequency", "50 Hz", field + ".Frequency", 50.0},
	}
}

func ofPart(part diagram.Part, settings ...[]setting) subject {
	return ofPartBy(diagram.Codes{}, part, settings...)
}

// ofPartBy is a part on a sheet with the rules.
func ofPartBy(codes diagram.Codes, part diagram.Part, settings ...[]setting) subject {
	part.ID, part.Name = "x", "Old"
	return subject{
		name: string(part.Kind) + " " + string(part.Withstand.Kind),
		check: func(t *testing.T, c unit.Convention, settings []setting) {
			aim := func(e Editor) target[diagram.Part] { return partTarget(e, []diagram.ID{"x"}, c) }
			doc := put(t, part, diagram.Info{Codes: codes})
			checkAll(t, doc, aim, partRows(part.Kind, c, fixed(doc)), c, settings)
		},
		settings: slices.Concat(settings...),
	}
}

// subjects returns every kind of record that has a form.
func subjects() []subject {
	named := []setting{{"Name", "  New ", "Name", "New"}}
	plain := slices.Concat(named, []setting{{"Note", "two\nlines", "Note", "two\nlines"}})
	const utility, exposure, ratings = "Transformer of the utility: ", "Exposure: ", "Ratings and room: "
	remarked := slices.Concat(named, []setting{{"Remarks: Note", "two\nlines", "Note", "two\nlines"}})
	source := slices.Concat(remarked, system("", "System"), []setting{
		{"Fault current: Three-phase fault current", "22 kA", "Source.FaultCurrent", 22e3},
		{"Fault current: Line-to-ground fault current", "20 kA", "Source.EarthFaultCurrent", 20e3},
		{"Fault current: X / R", "12.5", "Source.XR", 12.5},
	})
	supply := slices.Concat(source, []setting{
		{utility + "Rating", "500 kVA", "Source.Power", 500e3},
		{utility + "Impedance", "4", "Source.Reactance", 4.0},
		{exposure + "Occupancy", "hotel, dormitory, ward", "Exposure.Occupancy", diagram.SleepingRooms},
		{exposure + "Surge exposure", "high", "Exposure.Surges", diagram.HighExposure},
		{exposure + "Lightning protection", "level II", "Exposure.Lightning", diagram.LightningII},
	})
	flash := []setting{
		{exposure + "Building's electrode", "10", "Exposure.Electrode", 10.0},
		{exposure + "Supply's neutral to ground", "2 Ω", "Exposure.NeutralEarth", 2.0},
		{exposure + "Other services to ground", "2.5", "Exposure.OtherEarth", 2.5},
	}
	upstream := []setting{
		{exposure + "Surroundings", "urban", "Exposure.Surroundings", diagram.Urban},
		{exposure + "Lightning flashes", "0.7 /km2/yr", "Exposure.FlashDensity", 0.7},
		{exposure + "Overhead #1", "400 m", "Exposure.LowOverhead", 400.0},
		{exposure + "Overhead #2", "0.6 km", "Exposure.HighOverhead", 600.0},
		{exposure + "Cable #1", "328.0839895 ft", "Exposure.LowCable", 100.0},
		{exposure + "Cable #2", "0.5 m", "Exposure.HighCable", 0.5},
		{exposure + "Ends at a surge arrester", "yes", "Exposure.LinesEnd", true},
	}
	board := slices.Concat(named, []setting{
		{"Remarks: Note", "by the door", "Note", "by the door"},
		{"Service disconnect", "yes", "Board.Service", true},
		{"Neutral bonded to ground", "yes", "Board.Bonded", true},
		{"First in another building", "yes", "Board.Structure", true},
		{"Used for", "fire pump", "Use", diagram.FirePumpUse},
		{ratings + "Fault current", "22 kA", "Board.FaultCurrent", 22e3},
		{ratings + "Free positions", "12, 14", "Board.FreePositions", "12, 14"},
		{ratings + "Short leads at", "top left", "Board.ShortLead", "top left"},
		{ratings + "Photos", "front.jpg", "Board.Photos", "front.jpg"},
		{ratings + "Bus rating", "400 A", "Board.Rating", 400.0},
		{ratings + "Main breaker", "225", "Board.MainBreaker", 225.0},
		{ratings + "Spaces", "42", "Board.Spaces", 42},
		{ratings + "Free spaces", "3", "Board.FreeSpaces", 3},
		{ratings + "Mounting", "flush", "Board.Mounting", diagram.Flush},
	})
	load := slices.Concat(plain, []setting{
		{"Connection", "three-phase", "Load.Connection", diagram.ThreeWire},
		{"Rated voltage", "460 V", "Load.Voltage", 460.0},
		{"Power", "15 kVA", "Load.Power", 15e3},
		{"Used for", "critical data system", "Use", diagram.CriticalDataUse},
		{"Motor without a drive", "yes", "Load.Motor", true},
		{"Critical equipment", "yes", "Load.Critical", true},
		{"Load during a surge", "acts as a resistor", "Load.Terminals", diagram.ResistiveTerminals},
		{"Load during a surge", "acts as an input filter", "Load.Terminals", diagram.FilteredTerminals},
		{"Makes surges like", "contactors, drive, welder", "Load.Switching", diagram.ContactorSwitching},
	})
	kinds := []setting{
		{"Withstand by", "not known", "Withstand.Kind", diagram.WithstandKind("")},
		{"Withstand by", "volts", "Withstand.Kind", diagram.ByVolts},
		{"Withstand by", "multiple of nominal", "Withstand.Kind", diagram.ByMultiple},
	}
	transformer := slices.Concat(named, []setting{
		{"Remarks: Note", "n", "Note", "n"},
		{"Rating", "112.5 kVA", "Transformer.Power", 112.5e3},
		{"Impedance", "4.5 %", "Transformer.Impedance", 4.5},
		{"X / R", "2", "Transformer.XR", 2.0},
		{"Electrostatic screen", "yes", "Transformer.Screen", true},
		{"Autotransformer", "yes", "Transformer.Auto", true},
	}, system("Primary: ", "Transformer.Primary"), system("Secondary: ", "System"))
	category := diagram.Withstand{Kind: diagram.ByCategory, Category: 2}
	multiple := diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 3}
	volts := diagram.Withstand{Kind: diagram.ByVolts, Volts: 2500}
	return append(infoSubjects(),
		ofPart(diagram.Part{Kind: diagram.Supply, System: wye}, supply),
		ofPartBy(diagram.Codes{Practice: diagram.IECPractice}, diagram.Part{Kind: diagram.Supply, System: wye, Exposure: diagram.Exposure{LowCable: 20}}, supply, upstream),
		ofPart(diagram.Part{Kind: diagram.Supply, System: wye, Exposure: diagram.Exposure{Lightning: diagram.LightningI}}, supply, flash),
		ofPartBy(diagram.Codes{Practice: diagram.IECPractice},
			diagram.Part{Kind: diagram.Supply, System: wye, Exposure: diagram.Exposure{Occupancy: diagram.Dwelling, LowCable: 20}}, supply, upstream,
			[]setting{{exposure + "Owner has declined", "yes", "Exposure.Declined", true}}),
		ofPart(diagram.Part{Kind: diagram.Generator, System: wye}, source, []setting{
			{"Rating", "500 kVA", "Source.Power", 500e3},
			{"Subtransient X", "15", "Source.Reactance", 15.0},
		}),
		ofPart(diagram.Part{Kind: diagram.TransferSwitch}, plain, []setting{
			{"Position", "emergency", "Transfer.Position", diagram.ToEmergency},
			{"Switches the neutral", "yes", "Transfer.SwitchesNeutral", true},
		}),
		ofPart(diagram.Part{Kind: diagram.Transformer, System: wye, Transformer: diagram.TransformerData{Primary: wye}}, transformer),
		ofPart(diagram.Part{Kind: diagram.Switchboard, System: wye, Withstand: category}, board, system("Nameplate: ", "System"), kinds,
			[]setting{{"Category", "IV – at the service", "Withstand.Category", 4}}),
		ofPart(diagram.Part{Kind: diagram.Panel, System: wye, Withstand: multiple}, board, system("Nameplate: ", "System"), kinds[:2],
			[]setting{
				{"Times nominal crest", "5", "Withstand.Multiple", 5.0},
				{"Withstand by", "overvoltage category", "Withstand", diagram.Withstand{Kind: diagram.ByCategory, Category: 2, Multiple: 3}},
			}),
		ofPart(diagram.Part{Kind: diagram.Load, Withstand: volts}, load, kinds[2:],
			[]setting{{"Withstand", "4 kV", "Withstand.Volts", 4e3}}),
		ofPart(diagram.Part{Kind: diagram.Junction, System: wye}, plain, system("", "System")),
		ofPart(diagram.Part{Kind: diagram.Note}, []setting{{"Text", "by hand", "Note", "by hand"}}),
		ofFeeder(), ofProtector(), ofPlan(), ofSurge("surge", "",
			setting{"Arrives at", "Main", "Part", diagram.ID("panel-1")},
			setting{"Places", "every board and load", "Places", diagram.EveryBus}),
		ofSurge("surge under places", diagram.EveryBus,
			setting{"In the zone of", "Main", "Part", diagram.ID("panel-1")},
			setting{"Places", "every load", "Places", diagram.EveryLoad},
			setting{"Location category", "A, long branch circuits", "Category", diagram.CategoryA},
			setting{"Makes surges like", "a capacitor bank", "Switching", diagram.CapacitorSwitching}),
	)
}

func ofFeeder() subject {
	feeder := diagram.Feeder{
		ID: "x", Name: "Old", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Length: 3,
		Switch: diagram.SwitchData{Kind: diagram.Breaker, Rated: 100},
	}
	doc := func(t *testing.T) *diagram.Document {
		return put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load}, feeder)
	}
	const head = "Breaker or switch at the source end: "
	return subject{
		"feeder",
		func(t *testing.T, c unit.Convention, settings []setting) {
			checkAll(t, doc(t), func(e Editor) target[diagram.Feeder] { return feederTarget(e, []diagram.ID{"x"}, c) }, feederRows(c), c, settings)
		},
		[]setting{
			{"Name", "F2", "Name", "F2"},
			{"Length", "25 m", "Length", 25.0},
			{"Conductor", "35 mm2", "Area", 35e-6},
			{"Material", "aluminum", "Material", diagram.Aluminium},
			{"Conductors per phase", "2", "Parallel", 2},
			{"Raceway or cable", "tray", "Raceway", diagram.Tray},
			{"Lay of the wires", "tight bundle", "Lay", diagram.TightLay},
			{"Resistance", "0.0541 ohm/kft", "Resistance", 0.0541 / 304.8},
			{"Resistance", "0.193 ohm/km", "Resistance", 0.193e-3},
			{"Reactance", "0.048 Ω/1000 ft", "Reactance", 0.048 / 304.8},
			{"C, point to point", "22 185", "Constant", 22185.0},
			{"Surge impedance", "85.5", "SurgeImpedance", 85.5},
			{"Surge impedance", "0.3 kohm", "SurgeImpedance", 300.0},
			{"Wave speed", "150", "Velocity", 150e6},
			{"Wave speed", "500 ft/us", "Velocity", 152.4e6},
			{head + "Kind", "fuse", "Switch.Kind", diagram.Fuse},
			{head + "Open", "yes", "Switch.Open", true},
			{head + "Rated current", "225 A", "Switch.Rated", 225.0},
			{head + "Poles", "3", "Switch.Poles", 3},
			{head + "Ground-fault protection", "yes", "Switch.Residual", true},
			{"Remarks: Note", "in the wall", "Note", "in the wall"},
		},
	}
}

func ofProtector() subject {
	lead := diagram.Lead{Length: 6 * inch, Area: 5.26e-6}
	protector := diagram.Protector{
		ID: "x", Plan: diagram.FirstPlan, Bus: "a", Name: "Old", System: wye,
		Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead, Steel: true},
	}
	for i := range protector.Modes {
		protector.Modes[i] = diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}
	}
	const breaker = "Breaker: "
	const leads, modes, currents, built, cost = "Leads: ", "Rating in each mode: ", "Currents: ", "As built: ", "Cost: "
	settings := []setting{
		{"Name", "SPD 7", "Name", "SPD 7"},
		{"Type or class", "class II", "Type", diagram.ClassII},
		{leads + "All leads", "26 in", "Leads.Phase.Length Leads.Neutral.Length Leads.Earth.Length", 26 * inch},
		{leads, "1.27", "Leads.Phase.Length Leads.Neutral.Length Leads.Earth.Length", 50 * inch}, // dragged
		{leads + "Phase lead", "10 in", "Leads.Phase.Length", 10 * inch},
		{leads + "Neutral lead", "300 mm", "Leads.Neutral.Length", 0.3},
		{leads + "Ground lead", "1 ft", "Leads.Earth.Length", 12 * inch},
		{leads + "Phase size", "16 mm2", "Leads.Phase.Area", 16e-6},
		{leads + "Neutral size", "10 mm2", "Leads.Neutral.Area", 10e-6},
		{leads + "Ground lead size", "6 mm2", "Leads.Earth.Area", 6e-6},
		{leads + "Leads run", "twisted", "Leads.Run", diagram.Twisted},
		{leads + "Sharp bends", "2", "Leads.Bends", 2},
		{leads + "Coils", "1", "Leads.Coils", 1},
		{leads + "Ground lead runs in a steel raceway", "no", "Leads.Steel", false},
		{leads + "bonded at both ends", "yes", "Leads.SteelBonded", true},
		{modes + "Stated as", "Up, at its terminals", "Rating", diagram.Up},
		{modes + "L-N #1", "1200", "Modes.0.Level", 1200.0},
		{modes + "L-N #2", "320 V", "Modes.0.MCOV", 320.0},
		{modes + "L-G #1", "1.2 kV", "Modes.1.Level", 1200.0},
		{modes + "L-G #2", "320", "Modes.1.MCOV", 320.0},
		{modes + "N-G #1", "1200", "Modes.2.Level", 1200.0},
		{modes + "N-G #2", "320", "Modes.2.MCOV", 320.0},
		{modes + "L-L #1", "2000", "Modes.3.Level", 2000.0},
		{modes + "L-L #2", "640", "Modes.3.MCOV", 640.0},
		{modes + "L-L #1", "", "Modes.3", diagram.ModeRating{MCOV: 150}},
		{modes + "Gap or gas tube L-N #1", "yes", "Modes.0.Switching", true},
		{modes + "Gap or gas tube L-G #2", "yes", "Modes.1.Switching", true},
		{modes + "Gap or gas tube N-G #3", "yes", "Modes.2.Switching", true},
		{modes + "Gap or gas tube L-L #4", "yes", "Modes.3.Switching", true},
		{currents + "In", "20 kA", "In", 20e3},
		{currents + "Imax", "50 kA", "Imax", 50e3},
		{currents + "Iimp", "12.5 kA", "Iimp", 12.5e3},
		{currents + "SCCR", "200 kA", "SCCR", 200e3},
		{breaker + "Rated current", "30 A", "Breaker.Rated", 30.0},
		{breaker + "Poles", "3", "Breaker.Poles", 3},
		{breaker + "Breaker shared with other loads", "yes", "Breaker.Shared", true},
		{breaker + "Needs at least", "20 A", "Breaker.Least", 20.0},
		{breaker + "Allows at most", "60 A", "Breaker.Most", 60.0},
		{"Outside the board", "yes", "External", true},
		{built + "Installed on", "2026-11-29", "Installed.Date", "2026-11-29"},
		{built + "Installed by", "A. Tern", "Installed.By", "A. Tern"},
		{built + "Leads measured as built", "yes", "Installed.Measured", true},
		{built + "Indicator shows", "in order", "Installed.Indicator", diagram.InOrder},
		{built + "Last checked on", "2027-11-29", "Installed.Checked", "2027-11-29"},
		{built + "Photos", "spd-1.jpg", "Installed.Photos", "spd-1.jpg"},
		{cost + "Price", "1,250.50", "Price", 1250.5},
		{cost + "Labour", "1 h 30 min", "Hours", 1.5},
		{cost + "Catalogue text", "P-12", "Catalogue", "P-12"},
		{"Remarks: Note", "as found", "Note", "as found"},
	}
	return subject{
		"protector",
		func(t *testing.T, c unit.Convention, settings []setting) {
			doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, protector)
			checkAll(t, doc, func(e Editor) target[diagram.Protector] { return protectorTarget(e, []diagram.ID{"x"}, c) }, protectorRows(c), c, settings)
		},
		append(settings, system("Made for: ", "System")...),
	}
}

func ofPlan() subject {
	return subject{
		"plan",
		func(t *testing.T, c unit.Convention, settings []setting) {
			aim := func(e Editor) target[diagram.Plan] { return planTarget(e, diagram.FirstPlan, c) }
			checkAll(t, put(t), aim, planRows(c), c, settings)
		},
		[]setting{
			{"Name", "Best", "Name", "Best"}, {"What it is for", "short leads", "Purpose", "short leads"}, {"Date", " 2026-11-29 ", "Date", "2026-11-29"},
			{"Made by", "A. Tern", "Author", "A. Tern"}, {"Note", "n", "Note", "n"},
		},
	}
}

// ofSurge is a surge case of a sheet that has two.
func ofSurge(name string, places diagram.Places, settings ...setting) subject {
	surge := diagram.Surge{ID: "x", Places: places, Name: "Old", Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000}
	other := surge
	other.ID, other.Order = "y", 1
	return subject{
		name,
		func(t *testing.T, c unit.Convention, settings []setting) {
			doc := put(t, diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main"}, surge, other)
			rows := surgeRows(c, fixed(doc))
			checkAll(t, doc, func(e Editor) target[diagram.Surge] { return surgeTarget(e, 0, c) }, rows, c, settings)
		},
		append([]setting{
			{"Name", " New ", "Name", "New"}, {"Note", "n", "Note", "n"},
			{"Path", "line to ground", "Path", diagram.LineToEarth},
			{"Wave", "ring, 0.5 µs 100 kHz", "Wave", diagram.RingWave},
			{"Open-circuit voltage", "10 kV", "Voltage", 10e3},
			{"Short-circuit current", "0.75", "Current", 750.0},
		}, settings...),
	}
}

// ofInfo is the sheet under rules that are the given ones.
func ofInfo(name string, codes diagram.Codes, settings []setting) subject {
	const rules, prices, handOver = "Rules: ", "Prices: ", "Hand over: "
	return subject{
		name,
		func(t *testing.T, c unit.Convention, settings []setting) {
			doc := put(t, diagram.Info{Codes: codes, Issue: diagram.Issue{Logo: onePixel}})
			rows := slices.Concat(infoRows(c), codesRows(c, fixed(doc)), costRows(c))
			checkAll(t, doc, func(e Editor) target[diagram.Info] { return infoTarget(e, c) }, rows, c, settings)
		},
		slices.Concat([]setting{
			{"Title", "House", "Title", "House"}, {"Site", "Shore", "Site", "Shore"},
			{"Drawn by", "N. N.", "Author", "N. N."}, {"Note", "n", "Note", "n"},
			{prices + "Currency", "EUR", "Costs.Currency", "EUR"}, {prices + "Hour of labour", "78.50", "Costs.Rate", 78.5},
			{prices + "Travel", "120", "Costs.Travel", 120.0}, {prices + "Each shutdown", "1,500", "Costs.Shutdown", 1500.0},
			{prices + "Labour of a shutdown", "1 h 30 min", "Costs.ShutdownHours", 1.5}, {prices + "Shutdowns", "2", "Costs.Shutdowns", 2},
			{prices + "Overhead", "12.5 %", "Costs.Overhead", 12.5}, {prices + "Tax", "19", "Costs.Tax", 19.0},
			{handOver + "Firm", "Harbour Row Electric", "Issue.Firm", "Harbour Row Electric"}, {handOver + "Address", "Harbour Row 3", "Issue.Address", "Harbour Row 3"},
			{handOver + "Logo", "none", "Issue.Logo", ""}, {handOver + "Sheet number", "E-1", "Issue.Number", "E-1"},
			{handOver + "Revision", "B", "Issue.Revision", "B"}, {handOver + "Date of issue", "2 Nov 2026", "Issue.Date", "2 Nov 2026"},
			{"Record: Months between checks", "6", "Recheck", 6},
			{rules + "Fault currents", "by the point-to-point method", "Codes.Fault", diagram.PointToPoint},
			{rules + "Impedance tolerance", "7.5", "Codes.Tolerance", 7.5},
		}, settings),
	}
}

func infoSubjects() []subject {
	const rules = "Rules: "
	return []subject{
		ofInfo("info", diagram.Codes{}, []setting{
			{rules + "Practice", "IEC 60364 and 61643", "Codes.Practice", diagram.IECPractice},
			{rules + "NEC edition", "2020", "Codes.NEC", diagram.NEC2020},
			{rules + "Surges at the service", "IEEE C62.41-1991", "Codes.Surges", diagram.Surges1991},
		}),
		ofInfo("info under IEC", diagram.Codes{Practice: diagram.IECPractice}, []setting{
			{rules + "Practice", "by the supply (NEC)", "Codes.Practice", diagram.Practice("")},
			{rules + "Least Uc", "by the older table", "Codes.Uc", diagram.UcOlder},
			{rules + "Need for protection", "unless declined", "Codes.Risk", diagram.ByDefault},
		}),
	}
}
