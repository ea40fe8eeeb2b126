package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"clampline/diagram"
)

// A file is opened on the plan that was shown when it was saved, also by a program
// that is started anew. To look at another one leaves nothing to be saved, and is
// written with the next save.
func TestPlanIsKept(t *testing.T) {
	a := start(t)
	twoPlans := func(name string) (path string, second diagram.ID) {
		path = saved(t, house(t), name)
		a.OpenPath(path)
		run(t, a, "new plan")
		run(t, a, "save")
		return path, a.editor.Plan()
	}
	one, second := twoPlans("one.clampline")
	other, _ := twoPlans("other.clampline")
	run(t, a, "previous plan")
	if !a.editor.IsSaved() || a.editor.UndoLabel() != "add plan Plan 2" {
		t.Errorf("after another plan was looked at: saved %t, undo takes back %q", a.editor.IsSaved(), a.editor.UndoLabel())
	}
	run(t, a, "save")
	a.close()
	again := startIn(t, a.app)
	again.OpenPath(one)
	if got := again.editor.Plan(); got != second || again.bar.plan.Selected != "Plan 2" {
		t.Errorf("one: plan %s is shown, the bar says %q, want %s", got, again.bar.plan.Selected, second)
	}
	again.OpenPath(other)
	if got := again.editor.Plan(); got != diagram.FirstPlan {
		t.Errorf("the other: plan %s is shown, want the first", got)
	}
	again.OpenPath(saved(t, house(t), "third.clampline"))
	if got := again.editor.Plan(); got != diagram.FirstPlan {
		t.Errorf("a file that was never open: plan %s is shown, want the first", got)
	}
}

func TestSizeIsKept(t *testing.T) {
	a := start(t)
	a.window.Resize(fyne.NewSize(1111, 777))
	a.close()
	if got := startInSize(t, a.app); got != fyne.NewSize(1111, 777) {
		t.Errorf("the window is %v, want the size it had when it was closed", got)
	}
}

// startInSize starts the program anew and returns the size of its window.
func startInSize(t *testing.T, a fyne.App) fyne.Size {
	t.Helper()
	return New(a, Options{Inline: true}).window.Canvas().Size()
}
