package compare

import (
	"clampline/analysis"
	"clampline/diagram"
)

// Table is plans side by side.
type Table struct {
	Document *diagram.Document
	Basis    analysis.Basis
	Plans    []Plan
	Rows     []Row // one for each board and load, as the current flows
}

// Plan is one column, with its totals.
type Plan struct {
	ID       diagram.ID
	Result   *analysis.Result // nil where the plan is not solved yet; its totals are empty then
	All      Totals
	Critical Totals // of the loads that are marked as critical alone
	Open     Counts // findings left
	Aside    Counts // those that somebody has set aside
	Cost     Cost
}

// Totals is how many boards and loads have each verdict.
type Totals map[analysis.Verdict]int

// Counts is how many findings there are, by severity.
type Counts [analysis.Error + 1]int

// Row is one board or load.
type Row struct {
	Part     diagram.Part
	System   diagram.System // zero where it is not known
	Critical bool           // a load that is marked so
	Cells    []Cell         // by plan
}

// Cell is what a plan leaves at a board or load, in the mode that decides.
type Cell struct {
	Solved bool // else nothing is known yet, and Level is empty
	Level  analysis.Level
	Band   *analysis.Band // nil where none is at hand
}

// Table puts the results at hand side by side; Solve makes them. What costs nothing
// to know is told of a plan that is not solved, too.
func (in Input) Table() *Table {
	out := &Table{Document: in.Document, Basis: in.Basis}
	var first *analysis.Result
	for _, plan := range in.Plans {
		r := in.known(plan)
		out.Plans = append(out.Plans, planOf(in.Document, plan, r))
		if first == nil {
			first = r
		}
	}
	if first == nil {
		return out
	}
	for _, part := range first.Downward(in.Document) {
		out.Rows = append(out.Rows, in.row(part, first.Buses[part.ID].System))
	}
	return out
}

func (in Input) row(part diagram.Part, system diagram.System) Row {
	out := Row{Part: part, System: system, Critical: isCritical(part), Cells: make([]Cell, len(in.Plans))}
	for i, plan := range in.Plans {
		r := in.known(plan)
		if r == nil {
			continue
		}
		out.Cells[i] = Cell{Solved: true, Level: r.Buses[part.ID].Worst()}
		if band, ok := in.Bands[plan][part.ID]; ok {
			out.Cells[i].Band = &band
		}
	}
	return out
}

func isCritical(part diagram.Part) bool { return part.Kind == diagram.Load && part.Load.Critical }

func planOf(doc *diagram.Document, id diagram.ID, r *analysis.Result) Plan {
	out := Plan{ID: id, Result: r, All: Totals{}, Critical: Totals{}, Cost: CostOf(doc, id)}
	if r == nil {
		return out
	}
	out.All = r.Count()
	for bus, found := range r.Buses {
		if part, _ := doc.Part(bus); isCritical(part) {
			out.Critical[found.Worst().Verdict]++
		}
	}
	for _, f := range r.Findings {
		out.Open[f.Severity]++
	}
	for _, a := range r.Aside {
		out.Aside[a.Severity]++
	}
	return out
}
