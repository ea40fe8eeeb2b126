package record

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Row is one protector of a record.
type Row struct {
	Built   diagram.Protector
	Planned *diagram.Protector // that of the plan which was carried out; nil where it has none, or there is no such plan
	Was, Is analysis.Level     // the worst mode of its bus, by the plan and as built; zero where it is not judged
	Due     string             // the day of the next look; empty where no look is known
	Overdue bool
}

// Rows returns the protectors of a record in the order of their buses. The results are
// those of the plan that was carried out, which may be nil, and of the record.
func Rows(doc *diagram.Document, record diagram.Plan, planned, built *analysis.Result, today string) []Row {
	stands := diagram.Counterparts(doc, record.ID, record.Of)
	var out []Row
	for p := range doc.ProtectorsOf(record.ID) {
		row := Row{Built: p, Is: worst(built, p.Bus), Was: worst(planned, p.Bus), Due: p.Installed.Recheck(doc.Info().Recheck)}
		row.Overdue = row.Due != "" && row.Due < today
		if before, ok := doc.Protector(stands[p.ID]); ok {
			row.Planned = &before
		}
		out = append(out, row)
	}
	slices.SortStableFunc(out, func(a, b Row) int {
		return cmp.Or(diagram.CompareID(a.Built.Bus, b.Built.Bus), diagram.CompareID(a.Built.ID, b.Built.ID))
	})
	return out
}

func worst(result *analysis.Result, bus diagram.ID) analysis.Level {
	if result == nil || len(result.Buses[bus].Levels) == 0 {
		return analysis.Level{}
	}
	return result.Buses[bus].Worst()
}

// Leads writes the lengths of the leads that are in use, one where all are alike:
// phase, neutral, earth.
func Leads(p *diagram.Protector, c unit.Convention) string {
	lengths := []float64{p.Leads.Phase.Length}
	if lead.UsesNeutral(p) {
		lengths = append(lengths, p.Leads.Neutral.Length)
	}
	if lead.UsesEarth(p) {
		lengths = append(lengths, p.Leads.Earth.Length)
	}
	out := ""
	for _, length := range slices.Compact(lengths) {
		if out != "" {
			out += " / "
		}
		out += unit.Format(length, unit.LeadLength, c)
	}
	return out
}

// Difference is a protector that was built otherwise than planned.
type Difference struct {
	diagram.PlanDifference
	Bus     diagram.ID
	Was, Is analysis.Level // the worst mode of its bus
}

// Differences returns what was built otherwise than the plan has it. Days, names and
// what an indicator shows are no difference.
func Differences(doc *diagram.Document, record diagram.Plan, planned, built *analysis.Result) []Difference {
	if _, ok := doc.Plan(record.Of); !ok {
		return nil
	}
	var out []Difference
	for _, d := range diagram.PlanDifferences(doc, record.Of, record.ID) {
		bus := cmp.Or(d.After, d.Before).Bus
		out = append(out, Difference{d, bus, worst(planned, bus), worst(built, bus)})
	}
	return out
}
