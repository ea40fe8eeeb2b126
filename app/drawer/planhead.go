package drawer

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/app/look"
)

// planHead is the head of a column: a plan with its totals. A click shows the plan.
type planHead struct {
	widget.BaseWidget
	tapped func()
	object fyne.CanvasObject
}

func newPlanHead(c *Compare, plan compare.Plan) *planHead {
	h := &planHead{tapped: func() { c.hands.ShowPlan(plan.ID) }}
	name := smallText(c.state.Table.Document.NameOf(plan.ID), look.ColorHeading, true)
	if plan.ID == c.state.Plan {
		name = smallText("▸ "+c.state.Table.Document.NameOf(plan.ID), theme.ColorNamePrimary, true)
	}
	lines := container.New(tight{}, name)
	for _, line := range headLines(c.state.Table, plan) {
		lines.Add(smallText(line, look.ColorFaint, false))
	}
	h.object = lines
	h.ExtendBaseWidget(h)
	return h
}

// Tapped shows the plan.
func (h *planHead) Tapped(*fyne.PointEvent) { h.tapped() }

// CreateRenderer returns the renderer: its lines.
func (h *planHead) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(h.object) }

// headLines are the totals of a plan: its verdicts, those of critical equipment where there is
// any, the findings left, and what its work costs.
func headLines(t *compare.Table, plan compare.Plan) []string {
	cost := "nothing to buy or do"
	if len(plan.Cost.Bought)+len(plan.Cost.Altered) > 0 {
		cost = analysis.FigureIn(plan.Cost.Hours, "h") + " · " + costWords(plan.Cost)
	}
	if plan.Result == nil {
		return []string{"…", "", "", cost}
	}
	critical := totalsText(plan.Critical)
	if critical == "" {
		critical = "none"
	}
	return []string{totalsText(plan.All), critical, findingsText(plan), cost}
}

// costWords is what the work of a plan costs, and whether something is missing in it.
func costWords(c compare.Cost) string {
	out := c.Sum(c.Total)
	if !c.Whole() {
		return "from " + out
	}
	return out
}

// totalsText counts verdicts by their letters: "H 18 · X 2".
func totalsText(of compare.Totals) string {
	var words []string
	for _, v := range analysis.Verdicts() {
		if of[v] > 0 {
			words = append(words, fmt.Sprintf("%s %d", v.Letter(), of[v]))
		}
	}
	return strings.Join(words, " · ")
}

// findingsText counts the findings left, and those set aside.
func findingsText(plan compare.Plan) string {
	out := Counts(plan.Open).String()
	if out == "" {
		out = "no findings"
	}
	aside := 0
	for _, n := range plan.Aside {
		aside += n
	}
	if aside > 0 {
		out += fmt.Sprintf(" · %d set aside", aside)
	}
	return out
}

// newHeadNote says what stands in the lines beside it.
func newHeadNote(s CompareState) fyne.CanvasObject {
	lines := container.New(tight{})
	for _, text := range []string{"Plan", "boards and loads", "critical of them", "findings left", "labour and price"} {
		lines.Add(smallText(text, look.ColorFaint, false))
	}
	lines.Objects[0] = smallText("Plan", look.ColorHeading, true)
	if s.Table == nil {
		lines.Objects = nil
	}
	return lines
}

// smallText is one line that is cut off where its column ends.
func smallText(text string, name fyne.ThemeColorName, bold bool) fyne.CanvasObject {
	style := look.Style(name, look.SizeSmall, bold, true)
	out := widget.NewRichText(&widget.TextSegment{Text: text, Style: style})
	out.Truncation = fyne.TextTruncateEllipsis
	return out
}
