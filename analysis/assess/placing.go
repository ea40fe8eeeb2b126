package assess

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/geom"
)

// offerPlaces adds to the findings on cover the change that places a protector on
// the board or load, where none stands there and one would hold it, until the
// context ends.
func offerPlaces(ctx context.Context, in rule.Input, result *analysis.Result) {
	taken := map[diagram.ID]bool{}
	for p := range in.Document.ProtectorsOf(in.Plan) {
		taken[p.Bus] = true
	}
	known := trials{}
	var place func(diagram.ID, func(diagram.Protector) bool) analysis.Mend
	for i := range result.Findings {
		if ctx.Err() != nil {
			return
		}
		f := &result.Findings[i]
		if f.Subject != analysis.SubjectCover || taken[f.Records[0]] {
			continue
		}
		if place == nil {
			place = rule.Placer(in)
		}
		bus := result.Buses[f.Records[0]]
		if worst := bus.Worst(); worst.Reason != analysis.NoWithstand && worst.Reason != analysis.NoSystem {
			f.Mend = place(bus.ID, known.holds(in.Document, bus))
			if !f.Mend.IsThere() {
				f.Remedy += noneHolds
			}
		}
	}
}

// noneHolds is added to a remedy where no change is offered.
const noneHolds = "; none of the library would hold it, so look for one that limits to less, or for equipment that withstands more"

// trials are the levels that decide at parts with a protector, by what both are:
// most boards of a building are alike.
type trials map[trial]analysis.Level

type trial struct {
	part      diagram.Part
	system    diagram.System
	protector diagram.Protector
}

// level returns the level that decides at a part with the protector on its own.
func (t trials) level(part diagram.Part, system diagram.System, p diagram.Protector) analysis.Level {
	part.ID, part.Name, part.Note, part.At, part.Extra = "part", "", "", geom.Point{}, ""
	p.ID, p.Plan, p.Bus, p.Name, p.Note = "protector", diagram.FirstPlan, part.ID, "", ""
	key := trial{part, system, p}
	out, ok := t[key]
	if !ok {
		out = heldAlone(part, system, p)
		t[key] = out
	}
	return out
}

// holds returns whether a protector would hold a board or load better than it is
// held, by the hand rule and on its own. It is tried on a sheet of nothing but a
// supply and the part: what holds the part besides can only make it better.
func (t trials) holds(doc *diagram.Document, bus analysis.BusResult) func(diagram.Protector) bool {
	part, _ := doc.Part(bus.ID)
	before := bus.Worst()
	return func(p diagram.Protector) bool {
		switch after := t.level(part, bus.System, p); {
		case after.Reason == analysis.NoWithstand:
			return before.Verdict == analysis.Unreached
		case before.Verdict == analysis.Tight:
			return after.Verdict == analysis.Held
		default:
			return after.Verdict == analysis.Held || after.Verdict == analysis.Tight
		}
	}
}

// heldAlone returns the level that decides at a part with the protector, at the
// terminals of a supply, or one that is not known where that cannot be told.
func heldAlone(part diagram.Part, system diagram.System, p diagram.Protector) analysis.Level {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: system})
		tx.SetPart(part)
		tx.SetFeeder(diagram.Feeder{ID: "feeder", From: diagram.End{Part: "supply"}, To: diagram.End{Part: part.ID}})
		tx.SetProtector(p)
		return nil
	})
	if err != nil {
		return analysis.Level{}
	}
	result, err := handrule.Solve(context.Background(), doc, diagram.FirstPlan, analysis.Trace(doc), handrule.DefaultRule())
	if err != nil { // it is never cut off
		return analysis.Level{}
	}
	if bus, ok := result.Buses[part.ID]; ok {
		return bus.Worst()
	}
	return analysis.Level{}
}
