package main

import (
	"cmp"

	"clampline/analysis"
	"clampline/analysis/record"
	"clampline/analysis/table"
)

// builtColumns is what a record tells of each protector.
func builtColumns(s sheet) []table.Column[record.Row] {
	type row = record.Row
	says := func(name, help, head string, of func(row) string) table.Column[row] {
		return table.Column[row]{Name: name, Help: help, Head: head, Gap: 2, Value: func(r row) any { return orNil(of(r)) }, Cell: func(r row) string { return cmp.Or(of(r), "-") }}
	}
	volts := func(name, head string, of func(row) analysis.Level) table.Column[row] {
		return table.Column[row]{Name: name, Help: "peak at its bus in the worst mode; null where not known", Head: head, Gap: 2,
			Value: func(r row) any {
				if of(r).Known {
					return rounded(of(r).Volts)
				}
				return nil
			}, Cell: func(r row) string { return levelCell(s, of(r)) }}
	}
	planned := func(r row) string {
		if r.Planned == nil {
			return ""
		}
		return record.Leads(r.Planned, s.convention)
	}
	built := func(r row) string {
		if !r.Built.Installed.Measured {
			return ""
		}
		return record.Leads(&r.Built, s.convention)
	}
	return []table.Column[row]{
		{Name: "id", Value: func(r row) any { return string(r.Built.ID) }},
		{Name: "name", Head: "PROTECTOR", Value: func(r row) any { return r.Built.Name }, Cell: func(r row) string { return s.doc.NameOf(r.Built.ID) }},
		{Name: "bus", Head: "ON", Gap: 2, Value: func(r row) any { return string(r.Built.Bus) }, Cell: func(r row) string { return s.doc.NameOf(r.Built.Bus) }},
		says("installed", "the day; null where not installed or not known", "INSTALLED", func(r row) string { return r.Built.Installed.Date }),
		says("by", "", "BY", func(r row) string { return r.Built.Installed.By }),
		says("indicator", "in order, fault, dark, has none; null where nobody looked", "INDICATOR", func(r row) string { return string(r.Built.Installed.Indicator) }),
		says("leadsPlanned", "phase / neutral / ground (earth), one where alike", "LEADS PLANNED", planned),
		says("leadsBuilt", "likewise; null where not measured", "BUILT", built),
		volts("voltsPlanned", "VOLTS PLANNED", func(r row) analysis.Level { return r.Was }),
		volts("voltsBuilt", "BUILT", func(r row) analysis.Level { return r.Is }),
		{Name: "photos", Help: "names of files", Value: func(r row) any { return orNil(r.Built.Installed.Photos) }},
		says("due", "the day of the next look; null where not installed", "RE-CHECK", func(r row) string {
			if r.Overdue {
				return r.Due + " overdue"
			}
			return r.Due
		}),
		{Name: "overdue", Value: func(r row) any { return r.Overdue }},
	}
}
