package rule

import (
	"cmp"
	"context"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// stated is a figure of a record.
type stated struct {
	figure diagram.Figure
	value  float64
	of     string // what of the record has it, before the noun: "primary", "phase"; or nothing
}

// unusualOf notes the figures of a record that lie outside what is usual: more
// often than not a unit or a digit is wrong. The form marks them by the same
// table.
func (s *sheet) unusualOf(id diagram.ID, subject string, figures []stated) []analysis.Finding {
	var out []analysis.Finding
	name := s.Document.NameOf(id)
	if rest, unnamed := strings.CutPrefix(name, "feeder "); unnamed {
		name = "Feeder " + rest
	}
	if surge, ok := s.Document.Surge(id); ok {
		name = "The surge case “" + analysis.SurgeName(s.Document, surge) + "”"
	}
	for _, f := range figures {
		usual := f.figure.Usual()
		mark := usual.Mark(f.value, s.convention())
		if mark == "" {
			continue
		}
		noun := usual.Noun
		if f.of != "" {
			noun = f.of + " " + noun
		}
		finding := analysis.Finding{
			Severity: analysis.Remark, Subject: subject, Records: []diagram.ID{id},
			What: name + " has an unusual " + noun + ": " + mark,
			Why:  "usual is " + usual.Range(s.convention()) + "; a unit or a digit may be wrong", Remedy: "see whether the figure and its unit are right", Source: usual.Source,
		}
		if f.value == 0 {
			finding.Severity = analysis.Warning
			finding.What = name + " has no " + noun + ": its distance counts as none, and so does what it adds"
			finding.Why, finding.Remedy = "an unknown length taken as 0 is the best case", "enter its length"
		}
		out = append(out, finding)
	}
	return out
}

// unusual notes the unusual figures of the whole sheet, until the context ends.
func (s *sheet) unusual(ctx context.Context) []analysis.Finding {
	var out []analysis.Finding
	for part := range s.Document.Parts() {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(part.ID, subjectOf(part.Kind), partFigures(part))...)
	}
	for feeder := range s.Document.Feeders() {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(feeder.ID, analysis.SubjectFeeder, feederFigures(feeder))...)
	}
	for protector := range s.Document.ProtectorsOf(s.Plan) {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(protector.ID, analysis.SubjectNameplate, protectorFigures(protector))...)
	}
	for _, surge := range s.Document.Surges() {
		for _, f := range s.unusualOf(surge.ID, analysis.SubjectSupply, surgeFigures(surge)) {
			f.Records = []diagram.ID{s.arrival(surge)}
			out = append(out, f)
		}
	}
	return out
}

// arrival returns the record at which a surge case is shown, which has no place
// of its own on the sheet: the part at which it arrives, or else a source.
func (s *sheet) arrival(surge diagram.Surge) diagram.ID {
	if surge.Part != "" {
		return surge.Part
	}
	for part := range s.Document.Parts() {
		if part.Kind.IsSource() {
			return part.ID
		}
	}
	return surge.ID
}

func subjectOf(kind diagram.Kind) string {
	switch {
	case kind.IsSource():
		return analysis.SubjectSupply
	case kind == diagram.Transformer:
		return analysis.SubjectTransformer
	}
	return analysis.SubjectNameplate
}

func partFigures(p diagram.Part) []stated {
	of := systemFigures("", p.System)
	switch {
	case p.Kind.IsSource():
		reactance := diagram.UsualImpedance
		if p.Kind == diagram.Generator {
			reactance = diagram.UsualSubtransient
		}
		of = append(of, stated{diagram.UsualFault, p.Source.FaultCurrent, ""}, stated{diagram.UsualEarthFault, p.Source.EarthFaultCurrent, ""},
			stated{diagram.UsualXR, p.Source.XR, ""}, stated{diagram.UsualPower, p.Source.Power, ""}, stated{reactance, p.Source.Reactance, ""},
			stated{diagram.UsualFlashes, p.Exposure.FlashDensity, ""})
		of = append(of, lineFigures(p.Exposure)...)
	case p.Kind == diagram.Transformer:
		of = append(of, stated{diagram.UsualPower, p.Transformer.Power, ""}, stated{diagram.UsualImpedance, p.Transformer.Impedance, ""}, stated{diagram.UsualXR, p.Transformer.XR, ""})
		of = append(of, systemFigures("primary", p.Transformer.Primary)...)
	case p.Kind.IsBoard():
		of = append(of, stated{diagram.UsualFault, p.Board.FaultCurrent, ""}, stated{diagram.UsualBusRating, p.Board.Rating, ""}, stated{diagram.UsualMainBreaker, p.Board.MainBreaker, ""})
	case p.Kind == diagram.Load:
		of = append(of, stated{diagram.UsualLoadVoltage, p.Load.Voltage, ""}, stated{diagram.UsualLoadPower, p.Load.Power, ""})
	}
	switch p.Withstand.Kind {
	case diagram.ByVolts:
		of = append(of, stated{diagram.UsualWithstand, p.Withstand.Volts, ""})
	case diagram.ByMultiple:
		of = append(of, stated{diagram.UsualMultiple, p.Withstand.Multiple, ""})
	}
	return of
}

func lineFigures(e diagram.Exposure) []stated {
	return []stated{
		{diagram.UsualUpstreamLine, e.LowOverhead, "low-voltage overhead"}, {diagram.UsualUpstreamLine, e.LowCable, "low-voltage cable"},
		{diagram.UsualUpstreamLine, e.HighOverhead, "high-voltage overhead"}, {diagram.UsualUpstreamLine, e.HighCable, "high-voltage cable"},
	}
}

func surgeFigures(s diagram.Surge) []stated {
	return []stated{{diagram.UsualSurgeVoltage, s.Voltage, ""}, {diagram.UsualSurgeCurrent, s.Current, ""}}
}

func systemFigures(of string, s diagram.System) []stated {
	return []stated{{diagram.UsualSystemVoltage, s.Voltage, of}, {diagram.UsualFrequency, s.Frequency, of}}
}

func feederFigures(f diagram.Feeder) []stated {
	return []stated{
		{diagram.UsualFeederLength, f.Length, ""}, {diagram.UsualConductor, f.Area, ""},
		{diagram.UsualSurgeImpedance, f.SurgeImpedance, ""}, {diagram.UsualSwitch, f.Switch.Rated, ""},
		{diagram.UsualResistance, f.Resistance, ""}, {diagram.UsualReactance, f.Reactance, ""}, {diagram.UsualConstant, f.Constant, ""}, {diagram.UsualWaveSpeed, f.Velocity, ""},
	}
}

// protectorFigures leaves out a VPR, of which the nameplate rules say that no
// listing gives it.
func protectorFigures(p diagram.Protector) []stated {
	out := systemFigures("", p.System)
	for _, mode := range diagram.Modes() {
		rating := p.Modes[mode]
		if cmp.Or(p.Rating, diagram.VPR) == diagram.Up || isIEC(p.Type) {
			out = append(out, stated{diagram.UsualLevel, rating.Level, mode.String()})
		}
		out = append(out, stated{diagram.UsualMCOV, rating.MCOV, mode.String()})
	}
	return append(out,
		stated{diagram.UsualIn, p.In, ""}, stated{diagram.UsualImax, p.Imax, ""}, stated{diagram.UsualIimp, p.Iimp, ""}, stated{diagram.UsualSCCR, p.SCCR, ""},
		stated{diagram.UsualBreaker, p.Breaker.Rated, ""}, stated{diagram.UsualBreaker, p.Breaker.Least, "least"}, stated{diagram.UsualBreaker, p.Breaker.Most, "largest"},
		stated{diagram.UsualLeadLength, p.Leads.Phase.Length, "phase"}, stated{diagram.UsualLeadLength, p.Leads.Neutral.Length, "neutral"}, stated{diagram.UsualLeadLength, p.Leads.Earth.Length, "earth"},
		stated{diagram.UsualLeadSize, p.Leads.Phase.Area, "phase"}, stated{diagram.UsualLeadSize, p.Leads.Neutral.Area, "neutral"}, stated{diagram.UsualLeadSize, p.Leads.Earth.Area, "earth"},
		stated{diagram.UsualHours, p.Hours, ""})
}
