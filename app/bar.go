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

	"clampline/analysis"
	"clampline/app/details"
	"clampline/app/look"
	"clampline/diagram"
)

// Widths of the lists in the bar, px. A list asks for the room of its longest
// line, which names can make as long as they like; it is shortened instead.
const (
	planWidth  = 165
	surgeWidth = 200
	basisWidth = 110
)

// bar is the line above the sheet: undo, redo, zoom, and what is shown of the
// building — the plan, the surge case and the basis.
type bar struct {
	object     fyne.CanvasObject
	undo, redo *look.Button
	zoom       *widget.Label
	plan       *look.Select
	surge      *look.Select
	basis      *look.Select
	plans      []diagram.Plan
	names      []string // of the plans
}

func newBar(a *App) *bar {
	b := &bar{zoom: widget.NewLabel("100 %")}
	button := func(text string, icon fyne.Resource, command string) *look.Button {
		out := look.NewIconButton(text, icon, func() { a.runNamed(command) })
		out.Importance = widget.LowImportance
		return out
	}
	b.undo = button("Undo", theme.ContentUndoIcon(), "undo")
	b.redo = button("Redo", theme.ContentRedoIcon(), "redo")
	list := func(options []string, pick func(name string)) *look.Select {
		return look.NewSelect(options, func(name string) { pick(name); a.focusSheet() }) // so that keys are about the sheet again
	}
	b.plan = list(nil, func(name string) { b.pick(a, name) })
	b.surge = list(nil, func(name string) { a.setSurge(slices.Index(b.surge.Options, name) - 1) })
	b.basis = list([]string{string(analysis.HandRule), string(analysis.Transient)}, func(name string) { a.setBasis(analysis.Basis(name)) })
	more := look.NewIconButton("", theme.ContentAddIcon(), nil)
	more.OnTapped = func() { a.planMenu(more) }
	more.Importance = widget.LowImportance
	b.object = container.NewStack(look.NewGround(look.ColorBand), container.New(layout.NewCustomPaddedLayout(2, 2, 6, 10), container.NewHBox(
		b.undo, b.redo, widget.NewSeparator(),
		button("", theme.ZoomOutIcon(), "zoom out"), container.NewCenter(b.zoom), button("", theme.ZoomInIcon(), "zoom in"),
		button("Fit", theme.ZoomFitIcon(), "zoom fit"),
		layout.NewSpacer(),
		look.NewFaint("Plan"), container.New(wide(planWidth), b.plan), more,
		look.NewFaint("Surge case"), container.New(wide(surgeWidth), b.surge), button("", theme.DocumentCreateIcon(), "edit surges"),
		look.NewFaint("Basis"), container.New(wide(basisWidth), b.basis),
	)))
	return b
}

// wide is the width of one object, px; its height is its own.
type wide float32

// MinSize returns the room for the object.
func (w wide) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(float32(w), objects[0].MinSize().Height)
}

// Layout gives the object all of it.
func (w wide) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// pick shows the plan with the name.
func (b *bar) pick(a *App, name string) {
	if at := slices.Index(b.names, name); at >= 0 && b.plans[at].ID != a.editor.Plan() {
		a.editor.SetPlan(b.plans[at].ID)
		a.refresh()
	}
}

func (b *bar) show(a *App) {
	setEnabled(b.undo, a.canUndo())
	setEnabled(b.redo, a.canRedo())
	setText(b.zoom, percentText(a.editor.View().Percent()))
}

// percentText writes a zoom; only one of a very large sheet has a decimal.
func percentText(percent float64) string {
	if percent < 2 {
		return fmt.Sprintf("%.1f %%", percent)
	}
	return fmt.Sprintf("%.0f %%", percent)
}

// showPlans lists the plans and picks the one that is shown.
func (b *bar) showPlans(a *App) {
	plans := a.editor.Document().Plans()
	if !slices.Equal(plans, b.plans) {
		b.plans, b.names = plans, planNames(plans)
		b.plan.SetOptions(b.names)
	}
	for i, plan := range plans {
		if plan.ID == a.editor.Plan() {
			setSelected(b.plan, b.names[i])
		}
	}
}

// showSurges lists the surge cases and picks the one that counts, and the
// basis. The surge case has no influence on the hand rule.
func (b *bar) showSurges(a *App) {
	if lines := surgeLines(a.editor.Document(), a.convention()); !slices.Equal(lines, b.surge.Options) {
		b.surge.SetOptions(lines)
	}
	line := 0
	if at, one := a.surge.of(analysis.SurgesOf(a.editor.Document())); one {
		line = at + 1
	}
	setSelected(b.surge, b.surge.Options[line])
	setSelected(b.basis, string(a.basis))
	setEnabled(b.surge, a.basis == analysis.Transient)
}

// planNames returns a name for each plan, no two alike.
func planNames(plans []diagram.Plan) []string {
	var names []string
	var ids []diagram.ID
	for _, plan := range plans {
		names, ids = append(names, cmp.Or(plan.Name, string(plan.ID))), append(ids, plan.ID)
	}
	names = details.Distinct(names, ids)
	for i, plan := range plans {
		if plan.Locked {
			names[i] += lockedWord
		}
	}
	return names
}

// lockedWord follows the name of a locked plan.
const lockedWord = " · locked"

// setSelected shows a line of the list as picked without picking it.
func setSelected(s *look.Select, line string) {
	if s.Selected != line {
		s.Selected = line
		s.Refresh()
	}
}

func setEnabled(w fyne.Disableable, enabled bool) {
	switch {
	case enabled && w.Disabled():
		w.Enable()
	case !enabled && !w.Disabled():
		w.Disable()
	}
}

func setText(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}
