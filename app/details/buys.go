package details

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Buys is what the selected protector buys, as far as that is known. The zero value is that
// of no protector.
type Buys struct {
	Protector diagram.ID
	Hand      *compare.Bought // by the hand rule; nil while nobody knows
	Solved    *compare.Bought // by the transient; nil where nobody has asked
	Solving   bool            // the transient is under way
	Share     float64         // how much of that is done, up to 1
	Trouble   string          // why it ended without an answer
}

// buysView is the section below the form of a protector that tells what it buys.
type buysView struct {
	object *fyne.Container
	folds  folds
	button *look.Button // solves by the transient, or stops that
	solve  func()
	shown  Buys
	in     unit.Convention
}

func newBuysView(f folds) *buysView {
	v := &buysView{object: container.NewVBox(), folds: f}
	v.button = look.NewButton("", func() { v.solve() })
	return v
}

// forget makes the next show begin anew.
func (v *buysView) forget() { v.shown = Buys{} }

// show writes what the protector buys, and nothing for any other selection.
func (v *buysView) show(doc *diagram.Document, state State) {
	v.solve = state.SolveBuys
	now := state.Buys
	if state.elsewhere() {
		now = Buys{}
	}
	if now == v.shown && state.Convention == v.in {
		return
	}
	v.shown, v.in, v.object.Objects = now, state.Convention, nil
	if now.Protector != "" {
		v.object.Objects = section("What it buys", v.folds, v.lines(doc, now, state.Convention)...)
	}
	v.object.Refresh()
}

func (v *buysView) lines(doc *diagram.Document, b Buys, c unit.Convention) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	add := func(found *compare.Bought, basis analysis.Basis) {
		if found != nil {
			out = append(out, look.NewFaint("By the "+string(basis)), boughtText(doc, *found, basis, c))
		}
	}
	add(b.Hand, analysis.HandRule)
	add(b.Solved, analysis.Transient)
	if b.Trouble != "" {
		out = append(out, look.NewFaintParagraph("Not solved: "+unit.Words(b.Trouble, c)))
	}
	if b.Solved != nil {
		return out
	}
	text := "Solve it by the transient"
	if b.Solving {
		text = fmt.Sprintf("Stop (%.0f %% solved)", 100*b.Share)
	}
	if v.button.Text != text {
		v.button.SetText(text)
	}
	return append(out, container.NewHBox(v.button))
}

// boughtText tells what a protector buys, those lines that are listed with a dash.
func boughtText(doc *diagram.Document, b compare.Bought, basis analysis.Basis, c unit.Convention) fyne.CanvasObject {
	var lines []string
	for _, line := range b.Lines(doc, basis) {
		text := unit.SentenceCase(unit.Words(line.Text, c))
		if line.Under {
			text = "– " + text
		}
		lines = append(lines, text)
	}
	out := widget.NewLabel(strings.Join(lines, "\n"))
	out.Wrapping = fyne.TextWrapWord
	return out
}
