package assess

import (
	"context"
	"fmt"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// Run traces the building, applies the hand rule, with its usual figures, to the
// protectors of one plan, finds the fault currents, and lists what the rules
// find wrong. doc is a snapshot, or else nobody changes it
// until Run returns. An error says that the context has ended, or that the
// document has no such plan.
func Run(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
	return new(Engine).HandRule(ctx, doc, plan)
}

// HandRule is Run that traces the building and finds the fault currents anew only
// where it is another one than that of the run before.
func (e *Engine) HandRule(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
	result, err := e.byHand(ctx, doc, plan)
	if err == nil {
		result.PutAside(doc)
	}
	return result, err
}

// byHand is HandRule with what is set aside among the other findings.
func (e *Engine) byHand(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
	if _, ok := doc.Plan(plan); !ok {
		return nil, diagram.Problem{ID: plan, Place: fmt.Sprintf("plan %q", string(plan)), What: "the document has no plan of this id", Remedy: "choose one of its plans"}
	}
	traced, err := e.trace(ctx, doc)
	if err != nil {
		return nil, err
	}
	result, err := handrule.Solve(ctx, doc, plan, traced.topology, handrule.DefaultRule())
	if err != nil {
		return nil, err
	}
	result.Faults = traced.faults
	in := rule.Input{Document: doc, Plan: plan, Topology: traced.topology, Faults: traced.faults}
	offerPlaces(ctx, in, result)
	found, err := rule.Check(ctx, in)
	if err != nil {
		return nil, err
	}
	result.Findings = append(append(result.Findings, found...), ownSurges(doc)...)
	analysis.SortFindings(result.Findings)
	return result, ctx.Err()
}

// ownSurges notes that the surge cases of the sheet do not count by the hand rule,
// which has the surge of its figures and knows of no protector that is destroyed.
func ownSurges(doc *diagram.Document) []analysis.Finding {
	own := doc.Surges()
	if len(own) == 0 {
		return nil
	}
	return []analysis.Finding{{
		Rule: "surge.not counted", Severity: analysis.Remark, Subject: analysis.SubjectSurge,
		What:   fmt.Sprintf("The hand rule does not count the surge cases of the sheet: %d", len(own)),
		Why:    "it has one surge for every sheet, and does not see what a protector carries and whether that destroys it",
		Remedy: "choose the transient basis",
	}}
}
