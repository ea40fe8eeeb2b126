package app

import (
	"cmp"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
)

// bar is the line above the sheet: undo, redo, zoom, and what is shown of the
// building — the plan and the basis.
type bar struct {
	object     fyne.CanvasObject
	undo, redo *widget.Button
	zoom       *widget.Label
	plan       *widget.Select
	basis      *widget.Label
	plans      []diagram.Plan
	names      []string
}

func newBar(a *App) *bar {
	b := &bar{zoom: widget.NewLabel("100 %"), basis: widget.NewLabel("hand rule")}
	button := func(text string, icon fyne.Resource, command string) *widget.Button {
		out := widget.NewButtonWithIcon(text, icon, func() { a.runNamed(command) })
		out.Importance = widget.LowImportance
		return out
	}
	b.undo = button("Undo", theme.ContentUndoIcon(), "undo")
	b.redo = button("Redo", theme.ContentRedoIcon(), "redo")
	b.plan = widget.NewSelect(nil, nil)
	b.plan.OnChanged = func(name string) { b.pick(a, name) }
	more := widget.NewButtonWithIcon("", theme.ContentAddIcon(), nil)
	more.OnTapped = func() { a.planMenu(more) }
	more.Importance = widget.LowImportance
	b.object = container.NewStack(newGround(look.ColorBand), container.New(layout.NewCustomPaddedLayout(2, 2, 6, 10), container.NewHBox(
		b.undo, b.redo, widget.NewSeparator(),
		button("", theme.ZoomOutIcon(), "zoom out"), container.NewCenter(b.zoom), button("", theme.ZoomInIcon(), "zoom in"),
		button("Fit", theme.ZoomFitIcon(), "zoom fit"),
		layout.NewSpacer(),
		look.NewFaint("Plan"), b.plan, more,
		look.NewFaint("Basis"), b.basis,
	)))
	return b
}

// pick shows the plan with the name.
func (b *bar) pick(a *App, name string) {
	if at := slices.Index(b.names, name); at >= 0 && b.plans[at].ID != a.editor.Plan() {
		a.editor.SetPlan(b.plans[at].ID)
		a.refresh()
	}
}

func (b *bar) show(a *App) {
	setEnabled(b.undo, a.editor.CanUndo())
	setEnabled(b.redo, a.editor.CanRedo())
	setText(b.zoom, fmt.Sprintf("%.0f %%", a.editor.View().Percent()))
	if result := a.judgement.result; result != nil {
		setText(b.basis, string(result.Basis))
	}
}

// showPlans lists the plans and picks the one that is shown.
func (b *bar) showPlans(a *App) {
	plans := a.editor.Document().Plans()
	if !slices.Equal(plans, b.plans) {
		b.plans, b.names = plans, planNames(plans)
		b.plan.SetOptions(b.names)
	}
	for i, plan := range plans {
		if plan.ID == a.editor.Plan() && b.plan.Selected != b.names[i] {
			b.plan.Selected = b.names[i]
			b.plan.Refresh()
		}
	}
}

// planNames returns a name for each plan, no two alike.
func planNames(plans []diagram.Plan) []string {
	var out []string
	for _, plan := range plans {
		name := cmp.Or(plan.Name, string(plan.ID))
		if slices.Contains(out, name) {
			name += " (" + string(plan.ID) + ")"
		}
		out = append(out, name)
	}
	return out
}

func setEnabled(b *widget.Button, enabled bool) {
	switch {
	case enabled && b.Disabled():
		b.Enable()
	case !enabled && !b.Disabled():
		b.Disable()
	}
}

func setText(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}
