package main

import (
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// surgesOf is what surge --json prints.
func surgesOf(s sheet, cases []assess.Case) table.Record {
	return table.RecordOf([]table.Column[[]assess.Case]{
		{Name: "plan", Value: func([]assess.Case) any { return s.doc.NameOf(s.plan.ID) }},
		{Name: "cases", Value: func(cases []assess.Case) any { return table.Records(caseColumns(s), cases) }},
		{Name: "bands", Optional: true, Value: func([]assess.Case) any { return bandsOrNil(s) }},
	}, cases)
}

// surgesHelp tells of the members.
func surgesHelp() string {
	return strings.Join([]string{
		"With --json it prints an object: plan, cases, an array, and with --band bands, likewise. Each case has " + table.Help(caseColumns(sheet{})) + ".",
		"Each bus has " + table.Help(busColumns(sheet{})) + "; each of its modes " + table.Help(peakColumns()) + ".",
		"Each protector has " + table.Help(protectorColumns(sheet{}, assess.Case{})) + "; each of its modes " + table.Help(dutyColumns()) + ".",
		"Each assumption has " + table.Help(assumptionColumns(sheet{})) + ".",
		"Each of bands has " + table.Help(bandedColumns(sheet{})) + ".",
		"Everything is in SI units, times in seconds after the surge begins. A bus that is no board or load is a terminal of another part or the open end of a feeder.",
	}, " ")
}

// caseColumns is what is told of each surge case.
func caseColumns(s sheet) []table.Column[assess.Case] {
	type c = assess.Case
	return []table.Column[c]{
		text("name", "", func(c c) string { return surgeName(s, c.Surge) }),
		text("id", "", func(c c) string { return string(c.Surge.ID) }),
		text("path", "", func(c c) string { return string(c.Surge.Path) }),
		text("wave", "", func(c c) string { return string(c.Surge.Wave) }),
		{Name: "voltage", Value: func(c c) any { return c.Surge.Voltage }},
		{Name: "current", Value: func(c c) any { return c.Surge.Current }},
		text("part", "empty: the supply in use", func(c c) string { return string(c.Surge.Part) }),
		{Name: "places", Help: "of a case that arrives at many, one after the other", Optional: true, Value: func(c c) any { return orNil(string(c.Surge.Places)) }},
		{Name: "category", Help: "the location category of those that count", Optional: true, Value: func(c c) any { return orNil(string(c.Surge.Category)) }},
		{Name: "switching", Help: "what those that count switch", Optional: true, Value: func(c c) any { return orNil(string(c.Surge.Switching)) }},
		{Name: "step", Help: "of the computation", Value: func(c c) any { return c.Step }},
		digits6("duration", "", func(c c) float64 { return c.Duration }),
		digits6("delivered", "energy that the source of the surge gives out, its own resistance included", func(c c) float64 { return c.Delivered }),
		digits6("absorbed", "that of it which all protectors take", func(c c) float64 { return c.Absorbed }),
		digits6("balanceError", "what the balance lacks as a share of what was delivered", func(c c) float64 { return c.Balance }),
		{Name: "stepError", Help: "with --halve: how far the peak that moves most does, as a share", Optional: true, Value: func(c c) any {
			if c.Halving == nil {
				return nil
			}
			return sixDigits(c.Halving.Share)
		}},
		{Name: "buses", Value: func(c c) any { return table.Records(busColumns(s), slices.Concat(rowsOf(s, c))) }},
		{Name: "protectors", Value: func(c c) any { return table.Records(protectorColumns(s, c), installedIn(c)) }},
		{Name: "assumptions", Value: func(c c) any { return table.Records(assumptionColumns(s), c.Assumptions) }},
	}
}

// busColumns is what is told of each bus of a case.
func busColumns(s sheet) []table.Column[busRow] {
	return []table.Column[busRow]{
		text("id", "", func(bus busRow) string { return string(bus.Record) }),
		text("name", "", func(bus busRow) string { return bus.name }),
		text("kind", "", func(bus busRow) string {
			if part, ok := s.doc.Part(bus.Record); ok {
				return string(part.Kind)
			}
			return "feeder"
		}),
		text("terminal", "", func(bus busRow) string { return string(bus.Port) }),
		{Name: "judged", Help: "whether it gets a verdict", Value: func(bus busRow) any { return bus.Judged }},
		{Name: "modes", Value: func(bus busRow) any { return table.Records(peakColumns(), bus.peaks) }},
	}
}

func peakColumns() []table.Column[analysis.Peak] {
	return []table.Column[analysis.Peak]{
		text("mode", "", func(p analysis.Peak) string { return p.Mode.String() }),
		digits6("volts", "", func(p analysis.Peak) float64 { return p.Volts }),
		digits6("time", "", func(p analysis.Peak) float64 { return p.At }),
		text("between", "the conductors", func(p analysis.Peak) string { return p.Between }),
		{Name: "from", Help: "id of the part at which the surge arrived, of a case with many places", Optional: true, Value: func(p analysis.Peak) any { return orNil(string(p.Origin)) }},
		{Name: "loads", Help: "filtered, where the worse comes of input filters in the loads of which nothing is said; else open", Optional: true, Value: func(p analysis.Peak) any {
			if p.Filtered {
				return string(diagram.FilteredTerminals)
			}
			return nil
		}},
	}
}

// protectorColumns is what is told of each protector of a case.
func protectorColumns(s sheet, c assess.Case) []table.Column[diagram.ID] {
	return []table.Column[diagram.ID]{
		text("id", "", func(id diagram.ID) string { return string(id) }),
		text("name", "", func(id diagram.ID) string { return s.doc.NameOf(id) }),
		{Name: "modes", Value: func(id diagram.ID) any { return table.Records(dutyColumns(), c.Protectors[id]) }},
	}
}

func dutyColumns() []table.Column[analysis.Duty] {
	return []table.Column[analysis.Duty]{
		text("mode", "", func(d analysis.Duty) string { return d.Mode.String() }),
		digits6("amps", "", func(d analysis.Duty) float64 { return d.Amps }),
		digits6("time", "", func(d analysis.Duty) float64 { return d.At }),
		digits6("charge", "", func(d analysis.Duty) float64 { return d.Charge }),
		digits6("energy", "", func(d analysis.Duty) float64 { return d.Energy }),
	}
}

func assumptionColumns(s sheet) []table.Column[analysis.Assumption] {
	return []table.Column[analysis.Assumption]{
		text("id", "", func(a analysis.Assumption) string { return string(a.Record) }),
		text("text", "", func(a analysis.Assumption) string { return unit.Words(a.Text, s.convention) }),
		text("source", "", func(a analysis.Assumption) string { return unit.Terms(a.Source, s.convention) }),
	}
}
