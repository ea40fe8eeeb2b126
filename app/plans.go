package app

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram"
	"clampline/diagram/edit"
)

// renamePlan asks for another name of the plan that is shown.
func (a *App) renamePlan() {
	q := &question{app: a}
	name := newLine(a.editor.Document().NameOf(a.editor.Plan()), q)
	q.show("Rename the plan", widget.NewForm(widget.NewFormItem("Name", name)), fyne.NewSize(360, 0),
		reply{"Cancel", stayReply, nil},
		reply{"Rename", mainReply, func() { a.namePlan(strings.TrimSpace(name.Text)) }})
	a.window.Canvas().Focus(name)
	name.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func (a *App) namePlan(name string) {
	if name == "" {
		return
	}
	if err := a.editor.RenamePlan(a.editor.Plan(), name); err != nil {
		a.showError("Not renamed", err)
	}
	a.refresh()
}

// aboutPlans are the commands below the plus sign, which stand in the same order in
// the menu, after those that lead from one plan to the next.
var aboutPlans = []string{
	"new plan", "duplicate plan", "rename plan", "plan earlier", "plan later", "lock plan", "unlock plan", "remove plan",
	"differences", "compare with", "other plan",
}

// planMenu drops down below the plus sign: the commands about plans.
func (a *App) planMenu(below fyne.CanvasObject) {
	var items []*fyne.MenuItem
	for _, name := range aboutPlans {
		for _, command := range a.commands {
			if command.Name == name {
				item := fyne.NewMenuItem(command.Label, func() { a.runCommand(command) })
				item.Disabled = command.MayRun != nil && !command.MayRun(a.editor)
				items = append(items, item)
			}
		}
	}
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), a.window.Canvas(), fyne.NewPos(0, below.Size().Height), below)
}

// plansInOrder brings the commands of the menu of plans into its order.
func plansInOrder(commands []edit.Command) []edit.Command {
	isOther := func(c edit.Command) bool { return c.Menu != edit.MenuPlan }
	isPlan := func(c edit.Command) bool { return c.Menu == edit.MenuPlan }
	rank := func(c edit.Command) int { return slices.Index(aboutPlans, c.Name) }
	plans := slices.DeleteFunc(slices.Clone(commands), isOther)
	slices.SortStableFunc(plans, func(x, y edit.Command) int { return cmp.Compare(rank(x), rank(y)) })
	return append(slices.DeleteFunc(commands, isPlan), plans...)
}

// planCommands are those about plans that need the window.
func (a *App) planCommands() []edit.Command {
	control := func(name string) []edit.Key { return []edit.Key{{Modifiers: edit.Control | edit.Alt, Name: name}} }
	run := func(f func()) func(*edit.Editor) error { return func(*edit.Editor) error { f(); return nil } }
	return []edit.Command{
		{Name: "rename plan", Label: "Rename plan …", Menu: edit.MenuPlan, Keys: []edit.Key{{Name: "F2"}}, Run: run(a.renamePlan)},
		{Name: "unlock plan", Label: "Unlock plan …", Menu: edit.MenuPlan, Keys: control("U"), MayRun: (*edit.Editor).PlanIsLocked, Run: run(a.unlockPlan)},
		{Name: "compare with", Label: "Mark differences from …", Menu: edit.MenuPlan, Keys: control("M"),
			MayRun: func(e *edit.Editor) bool { return e.Other() != "" }, Run: run(a.chooseOther)},
	}
}

// unlockPlan asks whether the protectors of the shown plan may be changed from now on.
func (a *App) unlockPlan() {
	plan, _ := a.editor.Document().Plan(a.editor.Plan())
	name := a.editor.Document().NameOf(plan.ID)
	about := fmt.Sprintf("“%s” is locked: its protectors stay as they are.", name)
	if a.editor.Document().Plans()[0].ID == plan.ID {
		about += " It is the first plan, which records what was found in the building; the other plans are compared with it. To try something out, duplicate it instead."
	}
	q := &question{app: a}
	q.show("Unlock the plan?", paragraph(about), fyne.Size{},
		reply{"Leave locked", stayReply, nil},
		reply{"Unlock", dangerReply, func() {
			if err := a.editor.LockPlan(plan.ID, false); err != nil {
				a.showError("Not unlocked", err)
			}
			a.refresh()
		}})
}

// chooseOther asks with which plan the shown one is to be compared.
func (a *App) chooseOther() {
	var others []diagram.Plan
	for _, plan := range a.editor.Document().Plans() {
		if plan.ID != a.editor.Plan() {
			others = append(others, plan)
		}
	}
	about := fmt.Sprintf("What “%s” has otherwise than the plan that you choose is marked on the sheet.", a.editor.Document().NameOf(a.editor.Plan()))
	a.choose("Mark differences", wrap(about, 70), planNames(others), func(i int) {
		a.editor.CompareWith(others[i].ID)
		a.note(a.editor.SayDifferences())
	})
}

// tellingPlans returns commands about plans that say afterwards what they did where
// that may not be seen at once.
func (a *App) tellingPlans(command edit.Command) func(*edit.Editor) error {
	return func(e *edit.Editor) error {
		first := e.Document().Plans()[0]
		if err := command.Run(e); err != nil {
			return err
		}
		switch now, _ := e.Document().Plan(first.ID); {
		case now.Locked && !first.Locked && e.Plan() != first.ID:
			a.note(fmt.Sprintf("“%s” is locked now: it records what was found. Plan, Unlock plan lets it be changed.", e.Document().NameOf(first.ID)))
		case e.Against() != "":
			a.note(e.SayDifferences())
		}
		return nil
	}
}
