package app

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/diagram"
)

// A file is opened on the plan that was shown of it last, each file on its own,
// also by a program that is started anew.
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

// No more plans are kept than files are listed, and they go with that list.
func TestPlansThatAreKept(t *testing.T) {
	p := prefs{test.NewTempApp(t).Preferences()}
	for i := range mostRecent + 1 {
		p.setPlan(fmt.Sprint("file ", i), "plan-2")
	}
	p.setPlan("file 1", "plan-3")
	for path, want := range map[string]diagram.ID{"file 0": "", "file 1": "plan-3", "file 2": "plan-2", "file 10": "plan-2"} {
		if got := p.plan(path); got != want {
			t.Errorf("%s: got %q, want %q", path, got, want)
		}
	}
	p.clearRecent()
	if got := p.plan("file 1"); got != "" {
		t.Errorf("after the recent files are forgotten: %q", got)
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
