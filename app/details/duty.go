package details

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// dutyView is the table below the form of a protector: what each of its modes
// goes through in the surge cases that were solved.
type dutyView struct {
	object *fyne.Container
	folds  folds
	shown  explained // of the protector
}

func newDutyView(f folds) *dutyView { return &dutyView{object: container.NewVBox(), folds: f} }

// forget makes the next show begin anew.
func (d *dutyView) forget() { d.shown = explained{} }

// show writes the table for the selected protector, and nothing for any other
// selection or basis.
func (d *dutyView) show(doc *diagram.Document, state State) {
	var now explained
	if len(state.Selected) == 1 && !state.elsewhere() && state.Result != nil && state.Result.Basis == analysis.Transient {
		if _, ok := doc.Protector(state.Selected[0]); ok {
			now = explained{state.Selected[0], state.Result, state.Convention}
		}
	}
	if now == d.shown {
		return
	}
	d.shown = now
	d.object.Objects = nil
	if now.bus != "" {
		d.object.Objects = section("In the surge", d.folds, dutyTable(doc, now)...)
	}
	d.object.Refresh()
}

func dutyTable(doc *diagram.Document, of explained) []fyne.CanvasObject {
	out := []fyne.CanvasObject{look.NewFaintParagraph(dutyAbout(doc, of))}
	duties := greatest(of.result.Surges, of.bus)
	if len(duties) == 0 {
		return out
	}
	cells := []fyne.CanvasObject{}
	for _, head := range []string{"Mode", "Current", "Charge", "Energy", "Of rating"} {
		cells = append(cells, look.NewFaint(head))
	}
	for _, duty := range duties {
		cells = append(cells, dutyCells(duty, of.convention)...)
	}
	return append(out, container.New(columns(5), cells...))
}

// dutyAbout says of which surge cases the figures are, or why there are none.
func dutyAbout(doc *diagram.Document, of explained) string {
	surges := of.result.Surges
	if len(greatest(surges, of.bus)) == 0 {
		return unit.SentenceCase(unit.Words(leftOut(surges, of.bus), of.convention)) + "."
	}
	if len(surges) == 1 {
		return "Surge case “" + unit.Terms(analysis.SurgeName(doc, surges[0].Surge), of.convention) + "”."
	}
	return fmt.Sprintf("The greatest of each figure in %d surge cases.", len(surges))
}

func leftOut(surges []analysis.SurgeResult, protector diagram.ID) string {
	for _, s := range surges {
		for _, a := range s.Assumptions {
			if a.Record == protector {
				return a.Text
			}
		}
	}
	return "no surge case comes to it"
}

// greatest returns the greatest of each figure of a protector, mode by mode.
func greatest(surges []analysis.SurgeResult, protector diagram.ID) []analysis.Duty {
	var modes [diagram.ModeCount]analysis.Duty
	var has [diagram.ModeCount]bool
	for _, s := range surges {
		for _, duty := range s.Protectors[protector] {
			worst := &modes[duty.Mode]
			has[duty.Mode] = true
			worst.Mode, worst.Allows, worst.By = duty.Mode, duty.Allows, duty.By
			worst.Amps, worst.Charge, worst.Energy = max(worst.Amps, duty.Amps), max(worst.Charge, duty.Charge), max(worst.Energy, duty.Energy)
		}
	}
	var out []analysis.Duty
	for _, mode := range diagram.Modes() {
		if has[mode] {
			out = append(out, modes[mode])
		}
	}
	return out
}

func dutyCells(d analysis.Duty, c unit.Convention) []fyne.CanvasObject {
	share := widget.NewLabel("–")
	if d.Allows > 0 {
		share.SetText(fmt.Sprintf("%.0f %%", 100*d.Charge/d.Allows))
	}
	if d.Allows > 0 && d.Charge > d.Allows {
		share.Importance = widget.DangerImportance
	}
	cell := func(v float64, dimension unit.Dimension) fyne.CanvasObject {
		return widget.NewLabel(threeFigures(v, dimension, c))
	}
	return []fyne.CanvasObject{
		widget.NewLabel(unit.ModeWord(d.Mode.String(), c)),
		cell(d.Amps, unit.Current), cell(d.Charge, unit.Charge), cell(d.Energy, unit.Energy), share,
	}
}

// threeFigures writes a figure short enough for a column.
func threeFigures(v float64, d unit.Dimension, c unit.Convention) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 2, 64), 64)
	if err != nil {
		short = v
	}
	return unit.Format(short, d, c)
}
