package details

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// faultView is the table below the form of what stands on a bus: what current
// can flow there when conductors are joined.
type faultView struct {
	object *fyne.Container
	folds  folds
	shown  explained
}

func newFaultView(f folds) *faultView { return &faultView{object: container.NewVBox(), folds: f} }

// forget makes the next show begin anew.
func (v *faultView) forget() { v.shown = explained{} }

// show writes the table for what is selected, and nothing where no terminal of
// it is in the result.
func (v *faultView) show(doc *diagram.Document, state State) {
	var now explained
	part := BusOf(doc, state.Selected)
	if !state.elsewhere() && len(faultsOf(doc, state.Result, part)) > 0 {
		now = explained{part, state.Result, state.Convention}
	}
	if now == v.shown {
		return
	}
	v.shown = now
	v.object.Objects = nil
	if now.bus != "" {
		v.object.Objects = section("Fault current", v.folds, faultTable(doc, atMostTwo(faultsOf(doc, now.result, now.bus)), now.convention)...)
	}
	v.object.Refresh()
}

// faultsOf returns the faults at the terminals of a part, in their order.
func faultsOf(doc *diagram.Document, result *analysis.Result, id diagram.ID) []analysis.Fault {
	part, ok := doc.Part(id)
	if !ok || result == nil {
		return nil
	}
	var out []analysis.Fault
	for _, port := range part.Kind.Ports() {
		if f, ok := result.Faults[diagram.End{Part: id, Port: port}]; ok {
			out = append(out, f)
		}
	}
	return out
}

// atMostTwo leaves out the load side of a transfer switch, which has the higher
// of the other two: the panel has room for two columns.
func atMostTwo(faults []analysis.Fault) []analysis.Fault {
	return faults[:min(len(faults), 2)]
}

// joined is one way in which conductors may be joined.
type joined struct {
	words string
	amps  float64
}

// waysOf returns the currents of a fault in the order of the table.
func waysOf(f analysis.Fault, c unit.Convention) []joined {
	return []joined{
		{"Three-phase", f.ThreePhase}, {"Line to line", f.LineLine},
		{"Line to neutral", f.LineNeutral}, {"Line to " + unit.EarthWord(c), f.LineEarth},
	}
}

// faultTable writes the terminals side by side, then what is to be said of each.
func faultTable(doc *diagram.Document, faults []analysis.Fault, c unit.Convention) []fyne.CanvasObject {
	grid := container.NewGridWithColumns(1 + len(faults))
	if len(faults) > 1 {
		grid.Add(look.NewFaint(""))
		for _, f := range faults {
			grid.Add(look.NewFaint(terminalWord(f.At.Port)))
		}
	}
	for i, way := range waysOf(analysis.Fault{}, c) {
		grid.Add(look.NewFaint(way.words))
		for _, f := range faults {
			grid.Add(currentCell(waysOf(f, c)[i].amps, f, c))
		}
	}
	grid.Add(look.NewFaint("X / R"))
	for _, f := range faults {
		grid.Add(widget.NewLabel(orDash(f.XR, unit.Ratio, c)))
	}
	out := []fyne.CanvasObject{grid}
	for _, f := range faults {
		out = append(out, look.NewFaintParagraph(faultAbout(doc, f, len(faults) > 1, c)))
	}
	return out
}

// currentCell is one current; the highest of its terminal is set in bold.
func currentCell(amps float64, f analysis.Fault, c unit.Convention) fyne.CanvasObject {
	label := widget.NewLabel(orDash(amps, unit.Current, c))
	label.TextStyle.Bold = amps > 0 && amps == f.Highest()
	return label
}

// orDash writes a figure, or a dash for what is not there or not known.
func orDash(v float64, d unit.Dimension, c unit.Convention) string {
	if v == 0 {
		return "–"
	}
	return threeFigures(v, d, c)
}

// faultAbout says which current is the highest, from where it comes and what
// was taken as usual, or why there is none.
func faultAbout(doc *diagram.Document, f analysis.Fault, named bool, c unit.Convention) string {
	out := faultWhy(f, c)
	if named {
		out = terminalWord(f.At.Port) + ": " + out
	}
	if f.Estimated {
		out += " Estimated: the sheet does not give every figure."
	}
	for _, a := range f.Assumptions {
		out += "\n– " + assumptionText(doc, a, c)
	}
	return out
}

func assumptionText(doc *diagram.Document, a analysis.Assumption, c unit.Convention) string {
	out := doc.NameOf(a.Record) + ": " + unit.Words(a.Text, c)
	if a.Source != "" {
		out += " (" + unit.Terms(a.Source, c) + ")"
	}
	return out
}

// faultWhy says which current is the highest and from where it comes.
func faultWhy(f analysis.Fault, c unit.Convention) string {
	if !f.Known {
		return unit.SentenceCase(ended("not known: " + unit.Words(f.Why, c)))
	}
	out := "Up to " + highestText(f, c) + "."
	if f.Why != "" {
		out += " " + unit.SentenceCase(ended(unit.Words(f.Why, c)))
	}
	return out
}

// ended closes a sentence.
func ended(text string) string { return strings.TrimSuffix(text, ".") + "." }

// highestText is the highest current in words: "21.4 kA, three-phase".
func highestText(f analysis.Fault, c unit.Convention) string {
	highest := f.Highest()
	for _, way := range waysOf(f, c) {
		if way.amps == highest {
			return threeFigures(highest, unit.Current, c) + ", " + strings.ToLower(way.words)
		}
	}
	return threeFigures(highest, unit.Current, c)
}

// terminalWord names a terminal at the beginning of a sentence.
func terminalWord(port diagram.Port) string {
	if port == diagram.Common {
		return "Load side"
	}
	return unit.SentenceCase(string(port))
}

// faultLine says in a line what current may flow: "Fault current up to 21.4 kA".
func faultLine(faults []analysis.Fault, c unit.Convention) string {
	var words []string
	for _, f := range faults {
		if !f.Known {
			continue
		}
		amps := threeFigures(f.Highest(), unit.Current, c)
		if f.Estimated {
			amps = "about " + amps
		}
		if f.At.Port != "" {
			amps = fmt.Sprintf("%s (%s)", amps, strings.ToLower(terminalWord(f.At.Port)))
		}
		words = append(words, amps)
	}
	if len(words) == 0 {
		return ""
	}
	return "Fault current up to " + strings.Join(words, ", ")
}
