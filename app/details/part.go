package details

import (
	"slices"

	"clampline/diagram"
	"clampline/diagram/unit"
)

type part = diagram.Part

// partRows returns the fields of a part of the kind.
func partRows(kind diagram.Kind, c unit.Convention) []row[part] {
	rows := []row[part]{text("Name", func(p *part) *string { return &p.Name })}
	switch {
	case kind == diagram.Note:
		return []row[part]{paragraph("Text", func(p *part) *string { return &p.Note })}
	case kind.IsSource():
		rows = append(rows, sourceRows(kind, c)...)
	case kind == diagram.Transformer:
		rows = append(rows, transformerRows(c)...)
	case kind == diagram.TransferSwitch:
		rows = append(rows, transferRows()...)
	case kind.IsBoard():
		rows = append(rows, boardRows(c)...)
	case kind == diagram.Load:
		rows = append(rows, loadRows()...)
	}
	if kind == diagram.Transformer || kind.IsBoard() {
		rows = append(rows, heading[part](remarks)) // else the note would stand below another heading
	}
	return append(rows, paragraph("Note", func(p *part) *string { return &p.Note }))
}

const remarks = "Remarks"

func sourceRows(kind diagram.Kind, c unit.Convention) []row[part] {
	rows := systemRows("not known", c, func(p *part) *diagram.System { return &p.System })
	rows = append(rows,
		quantity("Fault current", unit.Current, func(p *part) *float64 { return &p.Source.FaultCurrent }),
		quantity("X / R", unit.Ratio, func(p *part) *float64 { return &p.Source.XR }),
		quantity("Rated power", unit.Power, func(p *part) *float64 { return &p.Source.Power }))
	if kind == diagram.Generator {
		rows = append(rows, quantity("Subtransient X", unit.Percent, func(p *part) *float64 { return &p.Source.Reactance }))
	}
	return rows
}

func transformerRows(c unit.Convention) []row[part] {
	data := func(p *part) *diagram.TransformerData { return &p.Transformer }
	return slices.Concat(
		[]row[part]{
			quantity("Rated power", unit.Power, func(p *part) *float64 { return &data(p).Power }),
			quantity("Impedance", unit.Percent, func(p *part) *float64 { return &data(p).Impedance }),
			quantity("X / R", unit.Ratio, func(p *part) *float64 { return &data(p).XR }),
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
		choiceOf("Position", positions,
			func(p part) diagram.Position {
				if p.Transfer.Position == "" {
					return diagram.ToNormal
				}
				return p.Transfer.Position
			},
			func(p *part, v diagram.Position) { p.Transfer.Position = v }),
		toggle("Switches the neutral", func(p *part) *bool { return &p.Transfer.SwitchesNeutral }),
	}
}

func boardRows(c unit.Convention) []row[part] {
	data := func(p *part) *diagram.BoardData { return &p.Board }
	bond := "Neutral bonded to " + unit.EarthWord(c)
	return slices.Concat(
		withstandRows(),
		[]row[part]{
			toggle("Service disconnect", func(p *part) *bool { return &data(p).Service }),
			toggle(bond, func(p *part) *bool { return &data(p).Bonded }),
			quantity("Bus rating", unit.Current, func(p *part) *float64 { return &data(p).Rating }),
			quantity("Main breaker", unit.Current, func(p *part) *float64 { return &data(p).MainBreaker }),
			count("Spaces", 10_000, func(p *part) *int { return &data(p).Spaces }),
			count("Free spaces", 10_000, func(p *part) *int { return &data(p).FreeSpaces }),
			choice("Mounting", plain("not known", diagram.Surface, diagram.Flush), func(p *part) *diagram.Mounting { return &data(p).Mounting }),
			heading[part]("Nameplate"),
		},
		systemRows("as supplied", c, func(p *part) *diagram.System { return &p.System }),
	)
}

func loadRows() []row[part] {
	data := func(p *part) *diagram.LoadData { return &p.Load }
	connections := plain("as the bus", diagram.ToNeutral, diagram.BetweenLines, diagram.ThreeWire, diagram.ThreeWireStar)
	return slices.Concat(
		withstandRows(),
		[]row[part]{
			choice("Connection", connections, func(p *part) *diagram.Connection { return &data(p).Connection }),
			quantity("Rated voltage", unit.Voltage, func(p *part) *float64 { return &data(p).Voltage }),
			quantity("Power", unit.Power, func(p *part) *float64 { return &data(p).Power }),
			toggle("Critical equipment", func(p *part) *bool { return &data(p).Critical }),
			terminalsRow(),
		},
	)
}

// terminalsRow edits what a surge meets at a load.
func terminalsRow() row[part] {
	terminals := []option[diagram.Terminals]{
		{diagram.OpenTerminals, "open"},
		{diagram.ResistiveTerminals, "resistive (from its power)"},
		{diagram.FilteredTerminals, "electronic with filter"},
	}
	return choiceOf("Seen by a surge", terminals,
		func(p part) diagram.Terminals {
			if p.Load.Terminals == "" {
				return diagram.OpenTerminals
			}
			return p.Load.Terminals
		},
		func(p *part, v diagram.Terminals) { p.Load.Terminals = v })
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
	categories := []option[int]{{1, "I"}, {2, "II"}, {3, "III"}, {4, "IV"}}
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
		choice("Category", categories, func(p *part) *int { return &p.Withstand.Category }).when(by(diagram.ByCategory)),
		quantity("Times nominal crest", unit.Ratio, func(p *part) *float64 { return &p.Withstand.Multiple }).when(by(diagram.ByMultiple)),
		quantity("Withstand", unit.Voltage, func(p *part) *float64 { return &p.Withstand.Volts }).when(by(diagram.ByVolts)),
	}
}
