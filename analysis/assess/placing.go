package assess

import (
	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// offerPlaces adds to the findings on cover the change that places a protector on
// the board or load, where none stands there and one would hold it.
func offerPlaces(in rule.Input, result *analysis.Result) {
	taken := map[diagram.ID]bool{}
	for p := range in.Document.ProtectorsOf(in.Plan) {
		taken[p.Bus] = true
	}
	var place func(diagram.ID, func(diagram.Protector) bool) analysis.Mend
	for i := range result.Findings {
		f := &result.Findings[i]
		if f.Subject != analysis.SubjectCover || taken[f.Records[0]] {
			continue
		}
		if place == nil {
			place = rule.Placer(in)
		}
		bus := result.Buses[f.Records[0]]
		if worst := bus.Worst(); worst.Reason != analysis.NoWithstand && worst.Reason != analysis.NoSystem {
			f.Mend = place(bus.ID, holds(in.Document, bus))
		}
	}
}

// holds returns whether a protector would hold a board or load better than it is
// held, by the hand rule and on its own. It is tried on a sheet of nothing but a
// supply and the part: what holds the part besides can only make it better.
func holds(doc *diagram.Document, bus analysis.BusResult) func(diagram.Protector) bool {
	part, _ := doc.Part(bus.ID)
	before := bus.Worst()
	return func(p diagram.Protector) bool {
		after, ok := heldAlone(part, bus.System, p)
		switch {
		case !ok:
			return false
		case after.Reason == analysis.NoWithstand:
			return before.Verdict == analysis.Unreached
		case before.Verdict == analysis.Tight:
			return after.Verdict == analysis.Held
		}
		return after.Verdict == analysis.Held || after.Verdict == analysis.Tight
	}
}

// heldAlone returns the level that decides at a part with the protector, at the
// terminals of a supply, and false where that cannot be told.
func heldAlone(part diagram.Part, system diagram.System, p diagram.Protector) (analysis.Level, bool) {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		supply, id := tx.NewPartID(diagram.Supply), part.ID
		if supply == id {
			supply += "x"
		}
		tx.SetPart(diagram.Part{ID: supply, Kind: diagram.Supply, System: system})
		tx.SetPart(part)
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: supply}, To: diagram.End{Part: id}})
		p.ID, p.Plan, p.Bus = "protector-1", diagram.FirstPlan, id
		tx.SetProtector(p)
		return nil
	})
	if err != nil {
		return analysis.Level{}, false
	}
	result := handrule.Solve(doc, diagram.FirstPlan, analysis.Trace(doc), handrule.DefaultRule())
	bus, ok := result.Buses[part.ID]
	return bus.Worst(), ok
}
