package main

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/table"
	"clampline/diagram/unit"
)

// compareHelp tells of the members of what --json prints.
func compareHelp() string {
	none := &compare.Table{}
	return unit.Wrapped("With --json it prints an object with basis, plans and rows. plans is an array of the totals of each plan: "+
		table.Help(totalColumns(sheet{}, none))+". rows is an array of buses and pieces of equipment: "+table.Help(rowColumns())+
		", plans (an array of what each plan leaves: "+table.Help(cellColumns(sheet{}, none))+"). With --csv the two stand in one line. Money is in the currency of the sheet.", helpWidth) + "\n"
}

// comparedOf is what compare --json prints.
func comparedOf(s sheet, t *compare.Table, rows []compare.Row) table.Record {
	columns := append(rowColumns(), table.Column[compare.Row]{Name: "plans", Value: func(r compare.Row) any {
		return table.Records(cellColumns(s, t), linesOf([]compare.Row{r}))
	}})
	return table.RecordOf([]table.Column[*compare.Table]{
		{Name: "basis", Value: func(t *compare.Table) any { return string(t.Basis) }},
		{Name: "plans", Value: func(t *compare.Table) any { return table.Records(totalColumns(s, t), t.Plans) }},
		{Name: "rows", Value: func(*compare.Table) any { return table.Records(columns, rows) }},
	}, t)
}

// rowColumns say which board or load a row is about.
func rowColumns() []table.Column[compare.Row] {
	return []table.Column[compare.Row]{
		text("id", "", func(r compare.Row) string { return string(r.Part.ID) }),
		text("name", "", func(r compare.Row) string { return r.Part.Name }),
		text("kind", "", func(r compare.Row) string { return string(r.Part.Kind) }),
		{Name: "system", Help: "empty where not known", Value: func(r compare.Row) any {
			if r.System.Known() {
				return r.System.String()
			}
			return ""
		}},
		{Name: "critical", Help: "whether it is a load that is marked so", Value: func(r compare.Row) any { return r.Critical }},
	}
}

// cellColumns is what is told of one plan at one board or load.
func cellColumns(s sheet, t *compare.Table) []table.Column[line] {
	level := func(l line) analysis.Level { return l.cell().Level }
	figure := func(name, help string, of func(analysis.Level) (float64, bool)) table.Column[line] {
		return table.Column[line]{Name: name, Help: help, Value: func(l line) any {
			if v, ok := of(level(l)); ok {
				return rounded(v)
			}
			return nil
		}}
	}
	return []table.Column[line]{
		text("plan", "its id", func(l line) string { return string(t.Plans[l.at].ID) }),
		text("mode", "L-N, L-G, N-G or L-L", func(l line) string { return level(l).Mode.String() }),
		figure("volts", "peak; null where it is not known", func(l analysis.Level) (float64, bool) { return l.Volts, l.Known }),
		figure("withstand", "peak; null likewise", func(l analysis.Level) (float64, bool) { return l.Withstand, l.Withstand > 0 }),
		figure("percent", "null likewise", analysis.Level.Percent),
		text("verdict", "Held, Tight, Exceeded, Unreached, Unknown", func(l line) string { return level(l).Verdict.String() }),
		text("basis", "hand rule or transient", func(line) string { return string(t.Basis) }),
		text("reason", "", func(l line) string { return string(level(l).Reason) }),
		text("why", "the reason in a sentence", func(l line) string { return unit.Words(level(l).Why, s.convention) }),
	}
}

// lineColumns are those of a CSV.
func lineColumns(s sheet, t *compare.Table) []table.Column[line] {
	var out []table.Column[line]
	for _, c := range rowColumns() {
		out = append(out, table.Column[line]{Name: c.Name, Value: func(l line) any { return c.Value(l.Row) }})
	}
	return append(out, spoken(s, cellColumns(s, t))...)
}

// spoken are columns of which modes and reasons are in the words of the convention: a CSV
// is read by people, and JSON by programs.
func spoken[R any](s sheet, columns []table.Column[R]) []table.Column[R] {
	for i, c := range columns {
		if c.Name == "mode" || c.Name == "reason" {
			columns[i].Value = func(r R) any { return unit.Terms(c.Value(r).(string), s.convention) }
		}
	}
	return columns
}

// totalColumns are the totals of each plan.
func totalColumns(s sheet, t *compare.Table) []table.Column[compare.Plan] {
	out := []table.Column[compare.Plan]{
		{Name: "id", Value: func(p compare.Plan) any { return string(p.ID) }},
		{Name: "name", Head: "PLAN", Value: func(p compare.Plan) any { return planName(s, p.ID) }, Cell: func(p compare.Plan) string { return planName(s, p.ID) }},
	}
	for _, v := range analysis.Verdicts() {
		out = append(out, table.Column[compare.Plan]{Name: strings.ToLower(v.String()), Head: strings.ToUpper(v.String()), Gap: 2, Right: true,
			Value: func(p compare.Plan) any { return p.All[v] },
			Cell: func(p compare.Plan) string {
				if critical := p.Critical[v]; critical > 0 {
					return fmt.Sprintf("%d (%d critical)", p.All[v], critical)
				}
				return fmt.Sprint(p.All[v])
			}})
	}
	out = append(out, table.Column[compare.Plan]{Name: "critical", Help: "an object with the same counts of critical equipment", Value: func(p compare.Plan) any { return criticalOf(p) }})
	return append(append(out, countColumns()...), costColumns(s)...)
}

func criticalOf(p compare.Plan) table.Record {
	var columns []table.Column[compare.Plan]
	for _, v := range analysis.Verdicts() {
		columns = append(columns, table.Column[compare.Plan]{Name: strings.ToLower(v.String()), Value: func(p compare.Plan) any { return p.Critical[v] }})
	}
	return table.RecordOf(columns, p)
}

// countColumns are the findings that are left.
func countColumns() []table.Column[compare.Plan] {
	count := func(name, head string, of analysis.Severity) table.Column[compare.Plan] {
		return table.Column[compare.Plan]{Name: name, Head: head, Gap: 2, Right: true,
			Value: func(p compare.Plan) any { return p.Open[of] }, Cell: func(p compare.Plan) string { return fmt.Sprint(p.Open[of]) }}
	}
	aside := func(p compare.Plan) int { return p.Aside[0] + p.Aside[1] + p.Aside[2] }
	return []table.Column[compare.Plan]{
		count("errors", "ERRORS", analysis.Error), count("warnings", "WARNINGS", analysis.Warning), count("notes", "NOTES", analysis.Remark),
		{Name: "setAside", Help: "findings that somebody has set aside, which are not counted", Head: "SET ASIDE", Gap: 2, Right: true,
			Value: func(p compare.Plan) any { return aside(p) }, Cell: func(p compare.Plan) string { return fmt.Sprint(aside(p)) }},
	}
}

// costColumns are what the work costs.
func costColumns(s sheet) []table.Column[compare.Plan] {
	money := func(name, help string, of func(compare.Cost) float64) table.Column[compare.Plan] {
		return table.Column[compare.Plan]{Name: name, Help: help, Value: func(p compare.Plan) any { return of(p.Cost) }}
	}
	return []table.Column[compare.Plan]{
		{Name: "hours", Help: "labour in all", Head: "HOURS", Gap: 2, Right: true, Value: func(p compare.Plan) any { return rounded(p.Cost.Hours) },
			Cell: func(p compare.Plan) string { return analysis.Figure(p.Cost.Hours) }},
		{Name: "currency", Value: func(p compare.Plan) any { return p.Cost.Currency }},
		money("protectors", "prices of what is to be bought", func(c compare.Cost) float64 { return c.Protectors }),
		money("labour", "", func(c compare.Cost) float64 { return c.Labour }),
		money("travel", "", func(c compare.Cost) float64 { return c.Travel }),
		money("shutdowns", "with their labour", func(c compare.Cost) float64 { return c.Shutdowns }),
		money("overhead", "", func(c compare.Cost) float64 { return c.Overhead }),
		money("tax", "", func(c compare.Cost) float64 { return c.Tax }),
		{Name: "total", Help: "the sum of these", Head: "TOTAL", Gap: 2, Right: true, Value: func(p compare.Plan) any { return p.Cost.Total }, Cell: costCell},
		{Name: "missing", Help: "an array of what is missing in the total, in sentences", Value: func(p compare.Plan) any { return append([]string{}, p.Cost.Missing(s.doc)...) }},
		{Name: "working", Help: "an array of steps, of the total", Value: func(p compare.Plan) any { return table.Records(stepColumns(s.convention), p.Cost.Working) }},
	}
}

// costCell is the total of a plan, with a sign where something is missing in it.
func costCell(p compare.Plan) string {
	out := p.Cost.Sum(p.Cost.Total)
	if !p.Cost.Whole() {
		return "from " + out
	}
	return out
}
