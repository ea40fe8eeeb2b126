package drawer

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// Tabs is the frame of the drawer: a head with a button for each view and one
// that closes the drawer, and below it the view that is shown. Use NewTabs.
type Tabs struct {
	object *fyne.Container
	head   *fyne.Container
	views  *fyne.Container
	tabs   []*tab
	shown  string
	picked func(name string)
}

// headMargin is the room at the left of the head, px.
const headMargin = 6

// NewTabs returns a drawer without views. picked is called where a person
// picks another view, and closed where the drawer is to be closed; Show calls
// neither.
func NewTabs(picked func(name string), closed func()) *Tabs {
	t := &Tabs{head: container.NewHBox(), views: container.NewStack(), picked: picked}
	hide := look.NewIconButton("", theme.CancelIcon(), closed)
	hide.Importance = widget.LowImportance
	head := container.New(layout.NewCustomPaddedLayout(2, 2, headMargin, 2), container.NewBorder(nil, nil, t.head, hide))
	t.object = container.NewBorder(head, nil, nil, nil, t.views)
	return t
}

// Object returns what to place in the window.
func (t *Tabs) Object() fyne.CanvasObject { return t.object }

// Add adds a view under a name that no other view has. The first one is shown
// until another is.
func (t *Tabs) Add(name string, view fyne.CanvasObject) {
	added := newTab(t, name, view)
	t.tabs = append(t.tabs, added)
	t.head.Add(added)
	t.views.Add(view)
	if t.shown == "" {
		t.shown = name
	}
	added.mark(t.shown == name)
}

// Shown returns the name of the view that is shown, or nothing where there is
// none.
func (t *Tabs) Shown() string { return t.shown }

// Show shows the view with the name and reports whether there is one.
func (t *Tabs) Show(name string) bool {
	if t.find(name) == nil {
		return false
	}
	t.shown = name
	for _, tab := range t.tabs {
		tab.mark(tab.name == name)
	}
	return true
}

// SetCount writes a number behind the name of a view; of zero it writes none.
func (t *Tabs) SetCount(name string, n int) {
	tab := t.find(name)
	if tab == nil {
		return
	}
	text := name
	if n > 0 {
		text = fmt.Sprintf("%s %d", name, n)
	}
	if tab.Text != text {
		tab.SetText(text)
	}
}

func (t *Tabs) find(name string) *tab {
	for _, tab := range t.tabs {
		if tab.name == name {
			return tab
		}
	}
	return nil
}

// pick shows the view that a person picked.
func (t *Tabs) pick(name string) {
	if name != t.shown {
		t.Show(name)
		t.picked(name)
	}
}

// tab is the button of a view. The arrows lead to its neighbours.
type tab struct {
	widget.Button
	of   *Tabs
	name string
	view fyne.CanvasObject
}

func newTab(of *Tabs, name string, view fyne.CanvasObject) *tab {
	t := &tab{of: of, name: name, view: view}
	t.Text = name
	t.OnTapped = func() { of.pick(name) }
	t.ExtendBaseWidget(t)
	return t
}

// mark shows the view or hides it, and says so on the button.
func (t *tab) mark(shown bool) {
	importance := widget.LowImportance
	if shown {
		importance = widget.MediumImportance
		t.view.Show()
	} else {
		t.view.Hide()
	}
	if t.Importance != importance {
		t.Importance = importance
		t.Refresh()
	}
}

// TypedKey shows the view, or goes on to that of the neighbour.
func (t *tab) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyLeft:
		t.beside(-1)
	case fyne.KeyRight:
		t.beside(1)
	case fyne.KeyReturn, fyne.KeyEnter:
		t.OnTapped()
	case fyne.KeyEscape:
		if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
			c.Unfocus()
		}
	case fyne.KeySpace:
		t.Button.TypedKey(ev)
	default:
		look.KeyToWindow(t, ev)
	}
}

// beside shows the view so many to the right and moves the focus along.
func (t *tab) beside(by int) {
	all := t.of.tabs
	next := all[(slices.Index(all, t)+by+len(all))%len(all)]
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(next)
	}
	t.of.pick(next.name)
}
