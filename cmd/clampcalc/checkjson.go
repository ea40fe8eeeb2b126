package main

import (
	"clampline/analysis"
	"clampline/analysis/table"
	"clampline/diagram/unit"
)

// findingsOf is what check --json prints: the printed findings of a sheet, and the
// counts of all.
func findingsOf(s sheet, printed []analysis.Finding) table.Record {
	counts := severityCounts(s.result.Findings)
	count := func(name string, of analysis.Severity) table.Column[sheet] {
		return table.Column[sheet]{Name: name, Value: func(sheet) any { return counts[of] }}
	}
	return table.RecordOf([]table.Column[sheet]{
		text("plan", "", func(s sheet) string { return s.doc.NameOf(s.plan.ID) }),
		text("basis", "", func(s sheet) string { return string(s.result.Basis) }),
		count("errors", analysis.Error), count("warnings", analysis.Warning), count("notes", analysis.Remark),
		{Name: "findings", Value: func(s sheet) any { return table.Records(findingColumns(s), printed) }},
		{Name: "setAside", Value: func(s sheet) any { return table.Records(asideColumns(s), s.result.Aside) }},
	}, s)
}

// asideColumns is what is told of each finding that is set aside.
func asideColumns(s sheet) []table.Column[analysis.SetAside] {
	var out []table.Column[analysis.SetAside]
	for _, c := range findingColumns(s) {
		out = append(out, table.Column[analysis.SetAside]{Name: c.Name, Help: c.Help, Value: func(a analysis.SetAside) any { return c.Value(a.Finding) }})
	}
	return append(out,
		text("reason", "", func(a analysis.SetAside) string { return a.By.Reason }),
		text("by", "", func(a analysis.SetAside) string { return a.By.By }),
		text("day", "", func(a analysis.SetAside) string { return a.By.Day }))
}

// findingColumns is what is told of each finding.
func findingColumns(s sheet) []table.Column[analysis.Finding] {
	words := func(name, help string, of func(analysis.Finding) string) table.Column[analysis.Finding] {
		return text(name, help, func(f analysis.Finding) string { return unit.Words(of(f), s.convention) })
	}
	return []table.Column[analysis.Finding]{
		text("severity", "error, warning or note", func(f analysis.Finding) string { return f.Severity.String() }),
		text("subject", "", func(f analysis.Finding) string { return f.Subject }),
		text("rule", "which rule found it; its name stays the same in other editions, conventions and versions", func(f analysis.Finding) string { return f.Rule }),
		text("key", "by which it is known again after edits: its rule, the main record, and which of several it is", func(f analysis.Finding) string { return f.Key().String() }),
		{Name: "critical", Help: "whether it concerns critical equipment", Value: func(f analysis.Finding) any { return f.Critical }},
		{Name: "records", Help: "the parts, feeders and protectors concerned, the main one first", Value: func(f analysis.Finding) any {
			return table.Records(recordColumns(s.doc), f.Records)
		}},
		words("what", "", func(f analysis.Finding) string { return f.What }),
		words("why", "empty where there is none, as the next two", func(f analysis.Finding) string { return f.Why }),
		words("remedy", "", func(f analysis.Finding) string { return f.Remedy }),
		text("source", "the rule", func(f analysis.Finding) string { return unit.Terms(f.Source, s.convention) }),
		{Name: "working", Help: "an array of steps", Value: func(f analysis.Finding) any { return table.Records(stepColumns(s.convention), f.Working) }},
		words("mend", "what the window offers to do about it; empty where that is nothing", func(f analysis.Finding) string { return f.Mend.Label }),
	}
}

// stepColumns is what is told of each step of a working.
func stepColumns(c unit.Convention) []table.Column[analysis.Step] {
	return []table.Column[analysis.Step]{
		text("label", "", func(s analysis.Step) string { return unit.Words(s.Label, c) }),
		text("formula", "", func(s analysis.Step) string { return unit.Terms(s.Formula, c) }),
		text("numbers", "", func(s analysis.Step) string { return unit.Terms(s.Numbers, c) }),
		{Name: "result", Help: "in its unit; null where the step has no figure", Value: func(s analysis.Step) any {
			if s.Unit == "" {
				return nil
			}
			return sixDigits(s.Result)
		}},
		text("unit", "", func(s analysis.Step) string { return s.Unit }),
		text("text", "the outcome of a step without a figure", func(s analysis.Step) string { return unit.Words(s.Text, c) }),
		text("source", "", func(s analysis.Step) string { return unit.Terms(s.Source, c) }),
	}
}
