package app

import (
	"cmp"
	"errors"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// askAside asks why a finding does not count, and who says so, and sets it aside.
func (a *App) askAside(f analysis.Finding) {
	q := &question{app: a}
	reason, by := newLine("", q), newLine(a.sayer(), q)
	plan := a.editor.Plan()
	item := func(key string, line fyne.CanvasObject) *widget.FormItem {
		return widget.NewFormItem(unit.SentenceCase(diagram.FieldOf(diagram.AsideFields(), key).Title(a.convention())), line)
	}
	q.show("Set the finding aside", widget.NewForm(item("reason", reason), item("by", by)), fyne.NewSize(460, 0),
		reply{"Cancel", stayReply, nil},
		reply{"Set aside", mainReply, func() {
			out := analysis.AsideOf(f, plan)
			out.Reason, out.By, out.Day = strings.TrimSpace(reason.Text), strings.TrimSpace(by.Text), time.Now().Format(time.DateOnly)
			a.setAside(out)
		}})
	a.window.Canvas().Focus(reason)
}

// sayer returns who set the last finding aside, or who drew the sheet.
func (a *App) sayer() string {
	name := ""
	for aside := range a.editor.Document().Asides() {
		name = cmp.Or(aside.By, name)
	}
	return cmp.Or(name, a.editor.Document().Info().Author)
}

func (a *App) setAside(aside diagram.Aside) {
	if aside.Reason == "" {
		a.showError("Not set aside", errors.New("why the finding does not count is missing; whoever reads the sheet later must know it"))
		return
	}
	err := forward{a}.Change("set a finding aside", func(tx *diagram.Tx) error {
		aside.ID = tx.NewAsideID()
		tx.SetAside(aside)
		return nil
	})
	if err != nil {
		a.showError("Not set aside", err)
		return
	}
	a.note("Set aside: it does not count in this plan. " + takesBack)
}

// countAgain counts a finding again that was set aside.
func (a *App) countAgain(s analysis.SetAside) {
	err := forward{a}.Change("count a finding again", func(tx *diagram.Tx) error {
		tx.Remove(s.By.ID)
		return nil
	})
	if err != nil {
		a.showError("Not changed", err)
		return
	}
	a.note("It counts again. " + takesBack)
}
