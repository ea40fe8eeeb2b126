package drawer

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

func newTabs(t *testing.T) (tabs *Tabs, picked *[]string, closed *int) {
	t.Helper()
	test.NewTempApp(t)
	picked, closed = new([]string), new(int)
	tabs = NewTabs(func(name string) { *picked = append(*picked, name) }, func() { *closed++ })
	for _, name := range []string{"Findings", "Protectors", "Traces"} {
		tabs.Add(name, widget.NewLabel(name))
	}
	test.NewWindow(tabs.Object())
	return tabs, picked, closed
}

func TestTabs(t *testing.T) {
	tabs, picked, _ := newTabs(t)
	check := func(when, want string) {
		t.Helper()
		if tabs.Shown() != want {
			t.Errorf("%s: %q is shown, want %q", when, tabs.Shown(), want)
		}
		for _, tab := range tabs.tabs {
			if on := tab.name == want; tab.view.Visible() != on || (tab.Importance == widget.MediumImportance) != on {
				t.Errorf("%s: %q is seen: %t, marked: %t", when, tab.name, tab.view.Visible(), tab.Importance == widget.MediumImportance)
			}
		}
	}
	check("at first", "Findings")
	if !tabs.Show("Traces") || tabs.Show("Boats") {
		t.Error("it does not say whether there is such a view")
	}
	check("shown", "Traces")
	test.Tap(tabs.tabs[1])
	check("picked", "Protectors")
	tabs.tabs[1].TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	check("right", "Traces")
	tabs.tabs[2].TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	check("right of the last", "Findings")
	tabs.tabs[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	check("left of the first", "Traces")
	if c := fyne.CurrentApp().Driver().CanvasForObject(tabs.Object()); c.Focused() != fyne.Focusable(tabs.tabs[2]) {
		t.Errorf("%v has the focus, want the tab that is shown", c.Focused())
	}
	tabs.tabs[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	check("enter", "Findings")
	test.Tap(tabs.tabs[0])
	if want := []string{"Protectors", "Traces", "Findings", "Traces", "Findings"}; !slices.Equal(*picked, want) {
		t.Errorf("picked %q, want %q", *picked, want)
	}
}

func TestCountOfATab(t *testing.T) {
	tabs, _, _ := newTabs(t)
	for _, row := range []struct {
		n    int
		want string
	}{{0, "Traces"}, {12, "Traces 12"}, {0, "Traces"}} {
		tabs.SetCount("Traces", row.n)
		if got := tabs.tabs[2].Text; got != row.want {
			t.Errorf("of %d it says %q, want %q", row.n, got, row.want)
		}
	}
	tabs.SetCount("Boats", 3)
}

func TestDrawerIsClosed(t *testing.T) {
	tabs, _, closed := newTabs(t)
	for _, o := range test.LaidOutObjects(tabs.Object()) {
		if b, ok := o.(*look.Button); ok && b.Text == "" {
			test.Tap(b)
		}
	}
	if *closed != 1 {
		t.Errorf("closed %d times, want once", *closed)
	}
}
