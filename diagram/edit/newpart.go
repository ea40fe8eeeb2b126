package edit

import (
	"clampline/diagram"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// newPart returns what a part of the kind is when it is placed: a name, and
// what is usual in the convention.
func newPart(tx *diagram.Tx, kind diagram.Kind, convention unit.Convention) diagram.Part {
	part := diagram.Part{Kind: kind}
	switch kind {
	case diagram.Supply, diagram.Generator:
		part.System = sourceSystem(tx.Document(), convention)
	case diagram.Transformer:
		part = newTransformer(convention)
	}
	part.ID = tx.NewPartID(kind)
	part.Name = newName(tx.Document(), kind)
	part.Withstand = usualWithstand(kind)
	part.Span = symbol.Span(part)
	if kind.IsBoard() && !hasService(tx.Document()) {
		part.Board.Service = true
		part.Board.Bonded = convention == unit.NorthAmerican
	}
	return part
}

// hasService reports whether a board holds the service disconnect. Where none
// does, the next board is taken for it; in North America that is where the
// neutral is bonded (NFPA 70, 250.24, from memory).
func hasService(doc *diagram.Document) bool {
	for part := range doc.Parts() {
		if part.Board.Service {
			return true
		}
	}
	return false
}

// usualWithstand returns the overvoltage category that IEC 60664-1:2020, 4.3.2
// (from memory), gives for the place of the equipment: IV at the origin of the
// installation, III in the fixed installation, II for what is supplied by it.
func usualWithstand(kind diagram.Kind) diagram.Withstand {
	category := map[diagram.Kind]int{diagram.Switchboard: 4, diagram.Panel: 3, diagram.Load: 2}[kind]
	if category == 0 {
		return diagram.Withstand{}
	}
	return diagram.Withstand{Kind: diagram.ByCategory, Category: category}
}

// sourceSystem returns the system of a new source: that of the sources there
// are, or else the usual one of the convention.
func sourceSystem(doc *diagram.Document, convention unit.Convention) diagram.System {
	for part := range doc.Parts() {
		if part.Kind.IsSource() && part.System.Known() {
			return part.System
		}
	}
	if convention == unit.IEC {
		return preset("400/230 V TN-S")
	}
	return preset("480Y/277 V")
}

// newTransformer returns a transformer as it is placed.
func newTransformer(convention unit.Convention) diagram.Part {
	part := diagram.Part{Kind: diagram.Transformer}
	if convention == unit.IEC {
		part.System = preset("400/230 V TN-S")
		part.Transformer.Primary = diagram.System{Wiring: diagram.Delta, Voltage: 400, Frequency: 50}
		return part
	}
	part.System = preset("208Y/120 V")
	part.Transformer.Primary = preset("480 V delta")
	return part
}

func preset(name string) diagram.System {
	for _, preset := range diagram.Presets() {
		if preset.Name == name {
			return preset.System
		}
	}
	return diagram.System{}
}

// newName returns the name of a new part: its kind and the next number. A
// junction has none, and a note is not counted.
func newName(doc *diagram.Document, kind diagram.Kind) string {
	stem := unit.SentenceCase(string(kind))
	switch kind {
	case diagram.Junction:
		return ""
	case diagram.Note:
		return stem
	}
	return namesOf(doc).next(stem)
}

// plainLead is the length of a lead for which the voltage protection rating of
// UL 1449 is stated, 6 in, in m (from memory).
const plainLead = 0.1524

// newProtector returns what a new protector on the host is.
func (e *Editor) newProtector(host diagram.Part) diagram.Protector {
	if e.options.DefaultProtector != nil {
		return e.options.DefaultProtector(e.doc, host)
	}
	lead := diagram.Lead{Length: plainLead}
	rating := diagram.VPR
	if e.options.Scene.Convention == unit.IEC {
		rating = diagram.Up
	}
	return diagram.Protector{Rating: rating, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}}
}

// systemAt returns the system at a terminal, followed up through feeders to
// what delivers it, or one that is not known.
func systemAt(doc *diagram.Document, end diagram.End) diagram.System {
	seen := map[diagram.ID]bool{}
	for !seen[end.Part] {
		seen[end.Part] = true
		part, _ := doc.Part(end.Part)
		if part.System.Known() && end.Port != diagram.Primary {
			return part.System
		}
		if part.Kind == diagram.Transformer {
			return diagram.System{}
		}
		for feeder := range doc.Feeders() {
			if feeder.To.Part == end.Part && (part.Kind != diagram.TransferSwitch || feeder.To.Port == part.Transfer.Selected()) {
				end = feeder.From
				break
			}
		}
	}
	return diagram.System{}
}
