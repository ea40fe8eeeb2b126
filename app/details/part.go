package details

import (
	"slices"

	"clampline/diagram"
	"clampline/diagram/unit"
)

type part = diagram.Part

// partRows returns the fields of a part of the kind. Which of them count depends
// on the rules of the document.
func partRows(kind diagram.Kind, c unit.Convention, document func() *diagram.Document) []row[part] {
	rows := []row[part]{text("Name", func(p *part) *string { return &p.Name })}
	switch {
	case kind == diagram.Note:
		return []row[part]{paragraph("Text", func(p *part) *string { return &p.Note })}
	case kind == diagram.Supply:
		rows = append(rows, supplyRows(c, document)...)
	case kind == diagram.Generator:
		rows = append(rows, generatorRows(c)...)
	case kind == diagram.Transformer:
		rows = append(rows, transformerRows(c)...)
	case kind == diagram.TransferSwitch:
		rows = append(rows, transferRows()...)
	case kind.IsBoard():
		rows = append(rows, boardRows(c, document)...)
	case kind == diagram.Load:
		rows = append(rows, loadRows(c, document)...)
	case kind == diagram.Junction:
		rows = append(rows, systemRows("as supplied", c, func(p *part) *diagram.System { return &p.System })...)
	}
	if kind == diagram.Transformer || kind.IsBoard() || kind.IsSource() {
		rows = append(rows, heading[part](remarks)) // else the note would stand below another heading
	}
	return append(rows, paragraph("Note", func(p *part) *string { return &p.Note }))
}

const remarks = "Remarks"

func transformerRows(c unit.Convention) []row[part] {
	data := func(p *part) *diagram.TransformerData { return &p.Transformer }
	return slices.Concat(
		[]row[part]{
			quantity("Rating", unit.Power, func(p *part) *float64 { return &data(p).Power }).usual(diagram.UsualPower),
			quantity("Impedance", unit.Percent, func(p *part) *float64 { return &data(p).Impedance }).usual(diagram.UsualImpedance),
			quantity("X / R", unit.Ratio, func(p *part) *float64 { return &data(p).XR }).usual(diagram.UsualXR),
			toggle("Electrostatic screen", func(p *part) *bool { return &data(p).Screen }),
			toggle("Autotransformer", func(p *part) *bool { return &data(p).Auto }),
			heading[part]("Primary"),
		},
		systemRows("not known", c, func(p *part) *diagram.System { return &data(p).Primary }),
		[]row[part]{heading[part]("Secondary")},
		systemRows("not known", c, func(p *part) *diagram.System { return &p.System }),
	)
}

func transferRows() []row[part] {
	positions := []option[diagram.Position]{{diagram.ToNormal, "normal"}, {diagram.ToEmergency, "emergency"}}
	return []row[part]{
		choiceUsual("Position", positions, func(p *part) *diagram.Position { return &p.Transfer.Position }),
		toggle("Switches the neutral", func(p *part) *bool { return &p.Transfer.SwitchesNeutral }),
	}
}

func boardRows(c unit.Convention, document func() *diagram.Document) []row[part] {
	data := func(p *part) *diagram.BoardData { return &p.Board }
	bond := "Neutral bonded to " + unit.EarthWord(c)
	return slices.Concat(
		withstandRows(),
		[]row[part]{
			toggle("Service disconnect", func(p *part) *bool { return &data(p).Service }),
			toggle(bond, func(p *part) *bool { return &data(p).Bonded }),
			toggle("First in another building", func(p *part) *bool { return &data(p).Structure }),
			useRow(diagram.Panel, c, document),
			heading[part]("Ratings and room"),
			quantity("Bus rating", unit.Current, func(p *part) *float64 { return &data(p).Rating }).usual(diagram.UsualBusRating),
			quantity("Main breaker", unit.Current, func(p *part) *float64 { return &data(p).MainBreaker }).usual(diagram.UsualMainBreaker),
			quantity("Fault current", unit.LargeCurrent, func(p *part) *float64 { return &data(p).FaultCurrent }).usual(diagram.UsualFault).hint("none marked on it"),
			count("Spaces", 10_000, func(p *part) *int { return &data(p).Spaces }),
			count("Free spaces", 10_000, func(p *part) *int { return &data(p).FreeSpaces }),
			text("Free positions", func(p *part) *string { return &data(p).FreePositions }).hint("such as 12, 14, 16"),
			text("Short leads at", func(p *part) *string { return &data(p).ShortLead }).hint("such as top left"),
			choice("Mounting", plain("not known", diagram.Surface, diagram.Flush), func(p *part) *diagram.Mounting { return &data(p).Mounting }),
			heading[part]("Nameplate"),
		},
		systemRows("as supplied", c, func(p *part) *diagram.System { return &p.System }),
	)
}

func loadRows(c unit.Convention, document func() *diagram.Document) []row[part] {
	data := func(p *part) *diagram.LoadData { return &p.Load }
	connections := plain("as the bus", diagram.ToNeutral, diagram.BetweenLines, diagram.ThreeWire, diagram.ThreeWireStar)
	return slices.Concat(
		withstandRows(),
		[]row[part]{
			choice("Connection", connections, func(p *part) *diagram.Connection { return &data(p).Connection }),
			quantity("Rated voltage", unit.Voltage, func(p *part) *float64 { return &data(p).Voltage }).usual(diagram.UsualLoadVoltage),
			quantity("Power", unit.Power, func(p *part) *float64 { return &data(p).Power }).usual(diagram.UsualLoadPower),
			useRow(diagram.Load, c, document),
			toggle("Critical equipment", func(p *part) *bool { return &data(p).Critical }),
			toggle("Motor without a drive", func(p *part) *bool { return &data(p).Motor }),
			terminalsRow(),
		},
	)
}

// useRow edits what a board or load is for. The rules of IEC do not ask for it.
func useRow(kind diagram.Kind, c unit.Convention, document func() *diagram.Document) row[part] {
	return choice("Used for", uses(kind, c), func(p *part) *diagram.Use { return &p.Use }).when(func(p part) bool {
		return p.Use != "" || !document().FollowsIEC()
	})
}

// uses lists what a board or load may be for. What only feeds others is left
// out for loads.
func uses(kind diagram.Kind, c unit.Convention) []option[diagram.Use] {
	out := []option[diagram.Use]{{"", "nothing in particular"}}
	for _, use := range diagram.Uses() {
		if kind.IsBoard() || use != diagram.DwellingUnitUse && use != diagram.SleepingRoomsUse {
			out = append(out, option[diagram.Use]{use, useWord(use, c)})
		}
	}
	return out
}

func useWord(use diagram.Use, c unit.Convention) string {
	switch use {
	case diagram.ElevatorUse:
		if c == unit.IEC {
			return "lift, escalator"
		}
		return "elevator, escalator"
	case diagram.MachineSafetyUse:
		return "machine safety circuits"
	case diagram.CriticalDataUse, diagram.CriticalPowerUse:
		return string(use) + " system"
	case diagram.SleepingRoomsUse:
		return sleepingRooms
	}
	return string(use)
}

// terminalsRow edits what a surge meets at a load.
func terminalsRow() row[part] {
	terminals := []option[diagram.Terminals]{
		{diagram.OpenTerminals, "takes nothing"},
		{diagram.ResistiveTerminals, "acts as a resistor"},
		{diagram.FilteredTerminals, "acts as an input filter"},
	}
	return choiceUsual("Load during a surge", terminals, func(p *part) *diagram.Terminals { return &p.Load.Terminals })
}

// categories lists the overvoltage categories with what each is for, as
// IEC 60664-1:2007, clause 4.3.3.2.2, has it (check your edition).
func categories() []option[int] {
	return []option[int]{
		{1, "I – protected electronics"}, {2, "II – appliances"}, {3, "III – fixed installation, panels"}, {4, "IV – at the service"},
	}
}

// withstandRows edit the withstand. Picking a way to state it fills in a value
// to start from.
func withstandRows() []row[part] {
	ways := []option[diagram.WithstandKind]{
		{"", "not known"},
		{diagram.ByCategory, "overvoltage category"},
		{diagram.ByMultiple, "multiple of nominal"},
		{diagram.ByVolts, "volts"},
	}
	by := func(kind diagram.WithstandKind) func(part) bool {
		return func(p part) bool { return p.Withstand.Kind == kind }
	}
	return []row[part]{
		choiceOf("Withstand by", ways,
			func(p part) diagram.WithstandKind { return p.Withstand.Kind },
			func(p *part, kind diagram.WithstandKind) {
				p.Withstand.Kind = kind
				if kind == diagram.ByCategory && p.Withstand.Category == 0 {
					p.Withstand.Category = 2
				}
			}),
		choice("Category", categories(), func(p *part) *int { return &p.Withstand.Category }).when(by(diagram.ByCategory)),
		quantity("Times nominal crest", unit.Ratio, func(p *part) *float64 { return &p.Withstand.Multiple }).usual(diagram.UsualMultiple).when(by(diagram.ByMultiple)),
		quantity("Withstand", unit.Voltage, func(p *part) *float64 { return &p.Withstand.Volts }).usual(diagram.UsualWithstand).when(by(diagram.ByVolts)),
	}
}
