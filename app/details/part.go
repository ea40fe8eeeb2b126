package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

type part = diagram.Part

const (
	remarks  = "Remarks"
	notKnown = "not known"
)

// partRows returns the fields of a part of the kind. Which of them count depends
// on the rules of the document.
func partRows(kind diagram.Kind, c unit.Convention, document func() *diagram.Document) []row[part] {
	if kind == diagram.Note {
		note := those(diagram.PartFields(), func(f *diagram.Field[part]) bool { return f.Key == "note" })
		return inForm(note, c, keys{"note"}, own[part]{"note": labelled[part]("text")})
	}
	fields := those(diagram.PartFields(), func(f *diagram.Field[part]) bool { return f.Fits == nil || f.Fits(kind) })
	return inForm(fields, c, append(append(keys{"name"}, partKeys(kind)...), "note"), ownRows(kind, c, document))
}

// partKeys is which fields a part of the kind has between its name and its note.
func partKeys(kind diagram.Kind) keys {
	switch {
	case kind == diagram.Supply:
		return keys{
			"system", "#Fault current", "source.faultCurrent", "source.earthFaultCurrent", "source.xr",
			"#Transformer of the utility", "source.power", "source.reactance",
			"#Exposure", "exposure.occupancy", "exposure.declined", "exposure.surges", "exposure.lightning", "exposure.surroundings", "exposure.flashDensity",
			"exposure.lowOverhead", "exposure.lowCable", "exposure.highOverhead", "exposure.highCable", "exposure.linesEnd",
			"exposure.electrode", "exposure.neutralEarth", "exposure.otherEarth", "#" + remarks,
		}
	case kind == diagram.Generator:
		return keys{"system", "source.power", "source.reactance", "#Fault current", "source.faultCurrent", "source.earthFaultCurrent", "source.xr", "#" + remarks}
	case kind == diagram.Transformer:
		return keys{
			"transformer.power", "transformer.impedance", "transformer.xr", "transformer.screen", "transformer.auto",
			"#Primary", "transformer.primary", "#Secondary", "system", "#" + remarks,
		}
	case kind == diagram.TransferSwitch:
		return keys{"transfer.position", "transfer.switchesNeutral"}
	case kind.IsBoard():
		return keys{
			"withstand.kind", "withstand.category", "withstand.multiple", "withstand.volts", "board.service", "board.bonded", "board.structure", "use",
			"#Ratings and room", "board.rating", "board.mainBreaker", "board.faultCurrent", "board.spaces", "board.freeSpaces", "board.freePositions", "board.shortLead", "board.photos", "board.mounting",
			"#Nameplate", "system", "#" + remarks,
		}
	case kind == diagram.Load:
		return keys{
			"withstand.kind", "withstand.category", "withstand.multiple", "withstand.volts",
			"load.connection", "load.voltage", "load.power", "use", "load.critical", "load.motor", "load.terminals", "load.switching",
		}
	}
	return keys{"system"}
}

// ownRows are the rows of parts that are more than their field.
func ownRows(kind diagram.Kind, c unit.Convention, document func() *diagram.Document) own[part] {
	none := "as supplied"
	if kind.IsSource() || kind == diagram.Transformer {
		none = notKnown
	}
	fields := diagram.PartFields()
	out := own[part]{
		"system":               systemRows(fields, "system", none, c, func(p *part) *diagram.System { return &p.System }),
		"transformer.primary":  systemRows(fields, "transformer.primary", none, c, func(p *part) *diagram.System { return &p.Transformer.Primary }),
		"board.faultCurrent":   alter(func(r row[part]) row[part] { return r.hint("none marked on it") }),
		"board.freePositions":  alter(func(r row[part]) row[part] { return r.hint("such as 12, 14, 16") }),
		"board.shortLead":      alter(func(r row[part]) row[part] { return r.hint("such as top left") }),
		"use":                  func(row[part]) []row[part] { return []row[part]{useRow(kind, c, document)} },
		"exposure.lowOverhead": func(row[part]) []row[part] { return lineRows(document) }, // with the others
		"withstand.kind":       func(r row[part]) []row[part] { return []row[part]{withstandRow(r.label, c)} },
		"withstand.category":   func(r row[part]) []row[part] { return []row[part]{categoryRow(r.label)} },
	}
	if kind == diagram.Generator {
		out["source.reactance"] = labelled[part]("subtransient X")
	}
	for _, key := range []string{"withstand.multiple", "withstand.volts"} {
		counts := diagram.FieldOf(fields, key).Counts
		out[key] = shown(func(p part) bool { return counts(&p) })
	}
	for _, key := range []string{"exposure.lowCable", "exposure.highOverhead", "exposure.highCable"} {
		out[key] = func(row[part]) []row[part] { return nil }
	}
	iec := func(part) bool { return document().FollowsIEC() }
	for _, key := range []string{"exposure.surroundings", "exposure.flashDensity", "exposure.linesEnd"} {
		out[key] = shown(iec)
	}
	for _, key := range []string{"exposure.electrode", "exposure.neutralEarth", "exposure.otherEarth"} {
		out[key] = shown(func(p part) bool { return p.Exposure.Lightning.Present() })
	}
	out["exposure.declined"] = shown(func(p part) bool { return p.Exposure.Occupancy == diagram.Dwelling && iec(p) })
	return out
}

// useRow edits what a board or load is for. The rules of IEC do not ask for it, and
// what only feeds others is left out for loads.
func useRow(kind diagram.Kind, c unit.Convention, document func() *diagram.Document) row[part] {
	f := *diagram.FieldOf(diagram.PartFields(), "use")
	uses := []option[diagram.Use]{{"", f.Empty}}
	for _, use := range diagram.Uses() {
		if kind.IsBoard() || use != diagram.DwellingUnitUse && use != diagram.SleepingRoomsUse {
			uses = append(uses, option[diagram.Use]{use, f.Spoken(string(use), c)})
		}
	}
	return choice("used for", uses, func(p *part) *diagram.Use { return &p.Use }).when(func(p part) bool {
		return p.Use != "" || !document().FollowsIEC()
	})
}

// categories lists the overvoltage categories with what each is for, as
// IEC 60664-1:2007, clause 4.3.3.2.2, has it (check your edition).
func categories() []option[int] {
	return []option[int]{
		{1, "I – protected electronics"}, {2, "II – appliances"}, {3, "III – fixed installation, panels"}, {4, "IV – at the service"},
	}
}

func categoryRow(label string) row[part] {
	return choice(label, categories(), func(p *part) *int { return &p.Withstand.Category }).when(func(p part) bool { return p.Withstand.Kind == diagram.ByCategory })
}

// withstandRow picks a way to state the withstand, and fills in a category to start
// from.
func withstandRow(label string, c unit.Convention) row[part] {
	f := diagram.FieldOf(diagram.PartFields(), "withstand.kind")
	ways := []option[diagram.WithstandKind]{{"", f.Empty}}
	for _, word := range f.Words {
		ways = append(ways, option[diagram.WithstandKind]{diagram.WithstandKind(word), f.Spoken(word, c)})
	}
	return choiceOf(label, ways,
		func(p part) diagram.WithstandKind { return p.Withstand.Kind },
		func(p *part, kind diagram.WithstandKind) {
			p.Withstand.Kind = kind
			if kind == diagram.ByCategory && p.Withstand.Category == 0 {
				p.Withstand.Category = 2
			}
		})
}
