package main

import "clampline/analysis/table"

// checksOf is what crosscheck --json prints.
func checksOf(s sheet, cases []checkedCase) table.Record {
	return table.RecordOf([]table.Column[[]checkedCase]{
		text("plan", "", func([]checkedCase) string { return s.doc.NameOf(s.plan.ID) }),
		{Name: "within", Value: func(cases []checkedCase) any { return within(cases) }},
		{Name: "cases", Value: func(cases []checkedCase) any { return table.Records(checkedColumns(s), cases) }},
	}, cases)
}

func checkedColumns(s sheet) []table.Column[checkedCase] {
	return []table.Column[checkedCase]{
		text("name", "", func(c checkedCase) string { return surgeName(s, c.Surge) }),
		text("id", "", func(c checkedCase) string { return string(c.Surge.ID) }),
		{Name: "loads", Help: "open or filtered: how those are taken of which nothing is said", Optional: true, Value: func(c checkedCase) any { return orNil(loadsOf(c.Circuit)) }},
		{Name: "measures", Value: func(c checkedCase) any { return table.Records(measureColumns(), c.comparisons) }},
	}
}

// measureColumns is what is told of each number that was found twice.
func measureColumns() []table.Column[comparison] {
	type x = comparison
	column := func(c table.Column[x], head string, least int, cell func(x) string) table.Column[x] {
		c.Head, c.Right, c.Least, c.Gap, c.Cell = head, true, least, 1, cell
		return c
	}
	name := text("name", "", func(x x) string { return x.Name })
	name.Head, name.Cell = "MEASURE", func(x x) string { return x.Name }
	return []table.Column[x]{
		name,
		text("kind", "", func(x x) string { return string(x.Kind) }),
		column(digits6("ours", "", func(x x) float64 { return x.ours }), "OURS", 13, func(x x) string { return shown(x.Kind, x.ours) }),
		column(digits6("ngspice", "", func(x x) float64 { return x.theirs }), "NGSPICE", 13, func(x x) string { return shown(x.Kind, x.theirs) }),
		column(digits6("difference", "", x.difference), "DIFFERENCE", 13, func(x x) string { return shown(x.Kind, x.difference()) }),
		column(table.Column[x]{Name: "percent", Help: "null where the number is too small for a share to say anything", Value: func(x x) any {
			if percent, ok := x.percent(); ok {
				return sixDigits(percent)
			}
			return nil
		}}, "%", 8, percentCell),
		{Name: "allowed", Help: "null where the numbers are not compared, as the next", Value: func(x x) any {
			if allowed, ok := x.allowed(); ok {
				return sixDigits(allowed)
			}
			return nil
		}},
		{Name: "within", Value: func(x x) any {
			if _, ok := x.allowed(); ok {
				return x.within()
			}
			return nil
		}, Cell: beyondCell},
	}
}
