package app

import (
	"cmp"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// asideWidth is how wide the question is, in units of the toolkit: a reason of a
// sentence fits in.
const asideWidth = 620

// askAside asks why a finding does not count, and who says so, and sets it aside.
func (a *App) askAside(f analysis.Finding) {
	draft := analysis.AsideOf(f, a.editor.Plan())
	draft.By = a.sayer()
	a.askAsideOf(f, draft, "It is listed apart with what you say here, and counts again when it becomes graver.")
}

// askAsideOf asks with what was said so far, under a remark, until both are said.
func (a *App) askAsideOf(f analysis.Finding, out diagram.Aside, remark string) {
	q := &question{app: a}
	reason, by := newLine(out.Reason, q), newLine(out.By, q)
	item := func(key string, line fyne.CanvasObject) *widget.FormItem {
		return widget.NewFormItem(unit.SentenceCase(diagram.FieldOf(diagram.AsideFields(), key).Title(a.convention())), line)
	}
	form := widget.NewForm(item("reason", reason), item("by", by))
	q.show("Set the finding aside", container.NewVBox(paragraph(unit.Words(f.What, a.convention())+".\n"+remark), form), fyne.NewSize(asideWidth, 0),
		reply{"Cancel", stayReply, nil},
		reply{"Set aside", mainReply, func() {
			out.Reason, out.By, out.Day = strings.TrimSpace(reason.Text), strings.TrimSpace(by.Text), time.Now().Format(time.DateOnly)
			if out.Reason == "" || out.By == "" {
				a.askAsideOf(f, out, "Say both: why it does not count here, and who says so.\nWhoever reads the sheet later has to know.")
				return
			}
			a.setAside(out)
		}})
	if reason.Text == "" {
		a.window.Canvas().Focus(reason)
	} else {
		a.window.Canvas().Focus(by)
	}
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
