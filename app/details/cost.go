package details

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"clampline/analysis/compare"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// costView is the section below the forms of the sheet and the plan that tells how the price
// of the work comes about.
type costView struct {
	object *fyne.Container
	folds  folds
	shown  costed
}

// costed names what the section is of.
type costed struct {
	there      bool
	text       string // of the working, which changes with all that counts
	convention unit.Convention
}

func newCostView(f folds) *costView { return &costView{object: container.NewVBox(), folds: f} }

// forget makes the next show begin anew.
func (v *costView) forget() { v.shown = costed{} }

// show writes the working where nothing is selected, and nothing else.
func (v *costView) show(doc *diagram.Document, state State) {
	now := costed{convention: state.Convention}
	var cost compare.Cost
	if _, ok := doc.Plan(state.Plan); ok && len(state.Selected) == 0 && !state.elsewhere() {
		cost = compare.CostOf(doc, state.Plan)
		now.there = true
		for _, step := range cost.Working {
			now.text += step.Label + step.Text
		}
		for _, line := range cost.Missing(doc) {
			now.text += line
		}
	}
	if now == v.shown {
		return
	}
	v.shown, v.object.Objects = now, nil
	if now.there {
		v.object.Objects = section("What the work costs", v.folds, costLines(doc, cost, state.Convention)...)
	}
	v.object.Refresh()
}

func costLines(doc *diagram.Document, cost compare.Cost, c unit.Convention) []fyne.CanvasObject {
	if len(cost.Bought)+len(cost.Altered) == 0 {
		return []fyne.CanvasObject{look.NewFaintParagraph("Nothing is to be bought or done in this plan. Of several plans the first is the building as found.")}
	}
	var out []fyne.CanvasObject
	for _, step := range cost.Working {
		out = append(out, look.Step(step, c))
	}
	for _, line := range cost.Missing(doc) {
		out = append(out, look.NewFaintParagraph(unit.SentenceCase(unit.Words(line, c))+"."))
	}
	return out
}
