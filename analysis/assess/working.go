package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// Sources of what a working says.
const (
	fromModel  = "solved by the transient model, which is tested against a general circuit simulator"
	fromSheet  = analysis.FromSheet
	byHandRule = "the hand rule; switch the basis to read its working"
)

// explainer writes the workings of one bus of a transient result.
type explainer struct {
	doc    *diagram.Document
	result *analysis.Result
	hand   analysis.BusResult                // of the same bus
	hands  map[diagram.ID]analysis.BusResult // likewise of other buses, as far as they were asked for
}

// working says how a level came about.
func (e explainer) working(bus diagram.ID, level analysis.Level) analysis.Working {
	var out analysis.Working
	if at, peak, reached := worstCase(bus, level.Mode, e.result.Surges); reached {
		worst := e.result.Surges[at].From(peak.Origin, peak.Filtered)
		out = append(out, e.caseStep(worst.Surge), peakStep(peak))
		if step, ok := takenStep(e.result.Surges[at], bus, peak); ok {
			out = append(out, step)
		}
		out = append(out, e.otherSteps(level, e.result.Surges[at].Surge)...)
		out = append(out, e.otherCases(bus, level.Mode, at)...)
		if step, ok := e.protectorStep(bus, level, worst); ok {
			out = append(out, step)
		}
		out = append(out, balanceStep(worst))
	} else {
		out = append(out, analysis.Step{Label: "surge", Text: level.Why})
	}
	out = append(out, e.handStep(level.Mode))
	if step, ok := e.differStep(bus, level); ok {
		out = append(out, step)
	} else if step, ok := e.otherDecides(bus, level); ok {
		out = append(out, step)
	}
	return append(out, e.withstandSteps(bus, level)...)
}

// caseStep says what arrives where.
func (e explainer) caseStep(s diagram.Surge) analysis.Step {
	source := fromSheet
	if s.ID == "" {
		source = s.Note + "; taken since the sheet has no surge case of its own"
	}
	return analysis.Step{Label: "surge case", Text: SurgeText(e.doc, s), Source: source}
}

// SurgeText says in a few words what a surge case is: its name, its wave with
// the crest open and the current shorted, where it arrives and between what.
func SurgeText(doc *diagram.Document, s diagram.Surge) string {
	return fmt.Sprintf("“%s”: %s wave, %s open-circuit, %s short-circuit in all, %s, at %s", analysis.SurgeName(doc, s), s.Wave,
		analysis.FigureIn(s.Voltage, "V"), analysis.FigureIn(s.Current, "A"), s.Path, analysis.ArrivesAt(doc, s))
}

// flashesOver is where wiring devices flash over, V: IEEE C62.41.2-2002, from memory.
const flashesOver = 6e3

func peakStep(p analysis.Peak) analysis.Step {
	out := analysis.Step{
		Label: "peak, " + p.Between + ", " + microseconds(p.At) + " after the surge begins", Result: audible(p.Volts), Unit: "V", Source: fromModel,
	}
	if p.Volts > flashesOver {
		out.Label += "; no insulation flashes over in the model, and that of wiring devices does at some 6 kV, so that this says no more than far above"
	}
	return out
}

// takenStep says how the loads count of which the sheet says nothing, and false where
// there are none.
func takenStep(s analysis.SurgeResult, bus diagram.ID, p analysis.Peak) (analysis.Step, bool) {
	other, reached := s.From(p.Origin, !p.Filtered).Worst(bus, p.Mode)
	if !reached || other.Filtered == p.Filtered {
		return analysis.Step{}, false
	}
	as, instead := "open", "input filters"
	if p.Filtered {
		as, instead = instead, as
	}
	return analysis.Step{
		Label:  "loads of which nothing is said",
		Text:   fmt.Sprintf("count as %s, the worse of the two here: as %s they leave %s", as, instead, wholeVolts(other.Volts)),
		Source: "common practice, no source",
	}, true
}

// significant rounds to three figures, which is more than a plan needs.
func significant(v float64) float64 { return analysis.Significant(v, 3) }

func microseconds(seconds float64) string { return analysis.FigureIn(significant(seconds*1e6), "µs") }

// otherSteps says what a mode would have at most if the place made surges of another step:
// of a higher one in proportion, which is so where nothing limits them and more than
// protectors leave; of a lower one no more than now.
func (e explainer) otherSteps(level analysis.Level, s diagram.Surge) analysis.Working {
	var out analysis.Working
	for _, o := range analysis.OtherSteps(e.doc, s) {
		ratio := max(1, o.Voltage/s.Voltage)
		out = append(out, analysis.Step{
			Label:   fmt.Sprintf("if this place made surges like “%s”, %s and %s: at most", analysis.SurgeName(e.doc, o), analysis.FigureIn(o.Voltage, "V"), analysis.FigureIn(o.Current, "A")),
			Formula: "U × ratio of the open-circuit voltages, 1 at least", Numbers: fmt.Sprintf("%s × %.3g", analysis.FigureIn(significant(level.Volts), "V"), ratio),
			Result: ratio * level.Volts, Unit: "V", Source: o.Note,
		})
	}
	return out
}

// otherCases says what the mode has in each case but one.
func (e explainer) otherCases(bus diagram.ID, mode analysis.Mode, but int) analysis.Working {
	var out analysis.Working
	for i, s := range e.result.Surges {
		if i == but {
			continue
		}
		step := analysis.Step{Label: "in the surge case “" + analysis.SurgeName(e.doc, s.Surge) + "”", Text: "it does not arrive here"}
		if peak, ok := s.Worst(bus, mode); ok {
			if peak.Origin != "" {
				step.Label += " from " + e.doc.NameOf(peak.Origin)
			}
			step.Label += ", " + peak.Between + " at " + microseconds(peak.At)
			step.Text, step.Result, step.Unit = "", peak.Volts, "V"
		}
		out = append(out, step)
	}
	return out
}

// protectorStep says what the nearest protector went through, and false where
// there is none.
func (e explainer) protectorStep(bus diagram.ID, level analysis.Level, s analysis.SurgeResult) (analysis.Step, bool) {
	nearest, ok := e.nearest(bus)
	if !ok {
		nearest, ok = e.doc.Protector(level.Protector) // as one farther down
	}
	name := e.doc.NameOf(nearest.ID)
	if nearest.Bus != bus {
		name += " on " + e.doc.NameOf(nearest.Bus)
	}
	duties := s.Protectors[nearest.ID]
	if len(duties) == 0 {
		return analysis.Step{Label: name, Text: e.leftOut(nearest.ID, s)}, ok
	}
	step := analysis.Step{Label: name + " takes", Text: dutyText(duties), Source: fromModel}
	if slices.Contains(s.Failed, nearest.ID) {
		step.Text += "\nmore than it is rated for: it is destroyed, and the voltages are those without it"
	}
	return step, ok
}

// nearest returns the first protector met on the way from a bus to its source,
// also beyond transformers.
func (e explainer) nearest(bus diagram.ID) (diagram.Protector, bool) {
	part, _ := e.doc.Part(bus)
	for node := e.result.Topology.Node(part); node != nil; node = node.Up {
		for p := range e.doc.ProtectorsOf(e.result.Plan) {
			if p.Bus == node.At.Part {
				return p, true
			}
		}
	}
	return diagram.Protector{}, false
}

// leftOut says why a protector takes nothing.
func (e explainer) leftOut(protector diagram.ID, s analysis.SurgeResult) string {
	for _, a := range s.Assumptions {
		if a.Record == protector {
			return a.Text
		}
	}
	return "the surge does not come to it"
}

// leastAmps is the current below which a mode is passed over, A.
const leastAmps = 1

// dutyText says what each mode that takes part went through, a line for each.
func dutyText(duties []analysis.Duty) string {
	var lines []string
	for _, d := range duties {
		if d.Amps < leastAmps {
			continue
		}
		line := fmt.Sprintf("%s: %s at %s, %s in all", d.Mode, analysis.FigureIn(significant(d.Amps), "A"), microseconds(d.At), analysis.FigureIn(significant(d.Energy), "J"))
		if d.Allows > 0 {
			line += fmt.Sprintf("; %s, %s of what its %s allows", analysis.FigureIn(significant(d.Charge), "C"), shareText(d.Charge/d.Allows), d.By)
		}
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return "less than " + analysis.FigureIn(leastAmps, "A") + " in each mode"
	}
	return strings.Join(lines, "\n")
}

// shareText writes a share in whole per cent, and that there is one where it is
// less.
func shareText(share float64) string {
	if share > 0 && share < 0.01 {
		return "less than 1\u00a0%"
	}
	return fmt.Sprintf("%.0f\u00a0%%", 100*share)
}

func balanceStep(s analysis.SurgeResult) analysis.Step {
	return analysis.Step{
		Label: "energy balance",
		Text: fmt.Sprintf("%s delivered; %s of it is not accounted for, in steps of %s over %s",
			analysis.FigureIn(significant(s.Delivered), "J"), balanceText(s.Balance), analysis.FigureIn(significant(s.Step*1e9), "ns"), microseconds(s.Duration)),
	}
}

// balanceText writes the share of the energy that is missing, and below a hundredth
// of a per cent only that.
func balanceText(share float64) string {
	if math.Abs(share) < 1e-4 {
		return "less than 0.01\u00a0%"
	}
	return analysis.FigureIn(significant(100*share), "%")
}

// handStep sets the voltage by the hand rule beside the solved one.
func (e explainer) handStep(mode analysis.Mode) analysis.Step {
	step := analysis.Step{Label: "hand rule, for comparison", Text: "not known", Source: byHandRule}
	for _, level := range e.hand.Levels {
		switch {
		case level.Mode != mode:
		case level.Known:
			step.Text, step.Result, step.Unit = "", level.Volts, "V"
		case level.Why != "":
			step.Text = level.Why
		}
	}
	return step
}

// withstandSteps says what the bus stands and how much of that is reached.
func (e explainer) withstandSteps(bus diagram.ID, level analysis.Level) analysis.Working {
	part, _ := e.doc.Part(bus)
	var out analysis.Working
	volts := handrule.Withstand(part.Withstand, e.hand.System, level.Mode, &out)
	handrule.AddShare(&out, level, volts)
	return out
}
