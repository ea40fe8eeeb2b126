package analysis

import (
	"fmt"
	"math"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// VoltageTolerance is the share by which a voltage may differ from the stated
// one and still be taken for the same: the 10 % that motors stand (NEMA MG 1,
// 12.44, from memory).
const VoltageTolerance = 0.1

// SameVoltage reports whether a voltage is within VoltageTolerance of the
// stated one.
func SameVoltage(stated, actual float64) bool {
	return math.Abs(actual-stated) <= VoltageTolerance*stated
}

// misfits reports what does not fit together: systems that are not known, and
// parts that get another one than they are made for.
func (t *tracer) misfits() []Finding {
	var out []Finding
	for i := range t.parts {
		if part := &t.parts[i]; part.Kind != diagram.Note {
			out = append(out, t.unknownSystem(part)...)
			out = append(out, t.misfit(part, t.nodes[t.first[i]:])...)
		}
	}
	return out
}

func (t *tracer) unknownSystem(part *diagram.Part) []Finding {
	delivers := part.Kind.IsSource() || part.Kind == diagram.Transformer
	if !delivers || part.System.Known() {
		return nil
	}
	return []Finding{{
		Rule: "system.unknown", Severity: Warning, Subject: SubjectSystem, Records: []diagram.ID{part.ID},
		What:   fmt.Sprintf("The system that %s delivers is not known", nameOf(part)),
		Why:    "without its wiring and voltage what it feeds is not evaluated",
		Remedy: "state its wiring, voltage, neutral and earthing",
	}}
}

// misfit checks one part against its nodes.
func (t *tracer) misfit(part *diagram.Part, nodes []Node) []Finding {
	switch part.Kind {
	case diagram.Switchboard, diagram.Panel, diagram.Junction:
		return t.stated(part, &nodes[0], part.System, "")
	case diagram.Transformer:
		return t.windings(part, &nodes[0], &nodes[1])
	case diagram.TransferSwitch:
		return throws(part, &nodes[0], &nodes[1])
	case diagram.Load:
		return t.load(part, &nodes[0])
	}
	return nil
}

func (t *tracer) windings(part *diagram.Part, primary, secondary *Node) []Finding {
	if primary.Up != secondary {
		winding := part.Transformer.Primary
		winding.Earthing = "" // a winding takes the earthing of what feeds it
		return t.stated(part, primary, winding, " on its primary")
	}
	out := t.stated(part, secondary, part.System, " on its secondary")
	return append(out, Finding{
		Rule: "transformer.fed at secondary", Severity: Warning, Subject: SubjectTransformer, Records: []diagram.ID{part.ID},
		What:   fmt.Sprintf("%s is fed at its secondary", nameOf(part)),
		Why:    "power goes through it the wrong way round; its taps, its bond and its breakers are made for the other",
		Remedy: "swap its terminals, or turn it to face the supply",
	})
}

// stated compares what a nameplate says with what arrives.
func (t *tracer) stated(part *diagram.Part, node *Node, stated diagram.System, where string) []Finding {
	arrives := node.System
	if node.Up != nil {
		arrives = node.Up.System
	}
	why := differs(stated, arrives)
	if why == "" {
		return nil
	}
	from := "what arrives"
	records := []diagram.ID{part.ID}
	if node.Up != nil {
		from, records = t.giver(node), append(records, node.Up.At.Part)
	}
	return []Finding{{
		Rule: "voltage.other arrives", Severity: Error, Subject: SubjectVoltage, Records: records,
		What:   fmt.Sprintf("%s is stated as %s%s, and %s gives %s", nameOf(part), textBeside(stated, arrives), where, from, textBeside(arrives, stated)),
		Why:    why,
		Remedy: correction(stated, arrives),
	}}
}

// correction says how to mend a statement that is not what arrives.
func correction(stated, arrives diagram.System) string {
	if stated.Wiring == diagram.Split && arrives.Wiring == diagram.Wye {
		return "if two lines of the wye and the neutral lead to it, state that: a split phase has a centre tap; the results take what arrives"
	}
	return "correct whichever of the two is wrong; the results take what arrives"
}

// giver names the part from which a node is fed.
func (t *tracer) giver(node *Node) string { return t.sourceName(node.Up.At.Part) }

// differs says in what a stated system is not what arrives, or nothing where
// they agree or one of them is not known.
func differs(stated, arrives diagram.System) string {
	switch {
	case !arrives.Known():
		return ""
	case otherFrequency(stated, arrives):
		return fmt.Sprintf("%s is not %s", figureOf(stated.Frequency, "Hz"), figureOf(arrives.Frequency, "Hz"))
	case !stated.Known():
		return missedBy(stated.Voltage, arrives)
	case stated.Lines() > arrives.Lines():
		return fmt.Sprintf("it needs %s and gets %d", unit.CountOf(stated.Lines(), "line"), arrives.Lines())
	case stated.Neutral && !arrives.Neutral:
		return "it needs a neutral and gets none"
	case stated.Lines() > 1 && !SameVoltage(stated.Voltage, arrives.Voltage):
		return fmt.Sprintf("%s between lines and %s differ by more than 10 %%", figureOf(stated.Voltage, "V"), figureOf(arrives.Voltage, "V"))
	case stated.Neutral && !SameVoltage(stated.LineToNeutral(), arrives.LineToNeutral()):
		return fmt.Sprintf("%s to neutral and %s differ by more than 10 %%", figureOf(stated.LineToNeutral(), "V"), figureOf(arrives.LineToNeutral(), "V"))
	case stated.Earthing != "" && arrives.Earthing != "" && stated.Earthing.HoldsNeutral() != arrives.Earthing.HoldsNeutral():
		return fmt.Sprintf("its earthing is stated as %s and arrives as %s", stated.Earthing, arrives.Earthing)
	}
	return ""
}

// missedBy says that a voltage of which nothing else is stated is none that a
// system has, or nothing.
func missedBy(voltage float64, arrives diagram.System) string {
	has := func(own float64) bool { return SameVoltage(voltage, own) }
	if voltage <= 0 || has(arrives.Voltage) || has(arrives.LineToNeutral()) || has(arrives.HighestToNeutral()) {
		return ""
	}
	return figureOf(voltage, "V") + " is none of its voltages"
}

// figureOf writes a figure to four digits, with its unit.
func figureOf(v float64, unit string) string {
	const digits = 4
	if v != 0 {
		scale := math.Pow(10, digits-1-math.Floor(math.Log10(math.Abs(v))))
		v = math.Round(v*scale) / scale
	}
	return FigureIn(v, unit)
}

func otherFrequency(a, b diagram.System) bool {
	return a.Frequency > 0 && b.Frequency > 0 && !SameVoltage(a.Frequency, b.Frequency)
}

// textBeside writes a system where it is held against another one: with its
// frequency where they differ in that, and the little that is stated where it is
// not known.
func textBeside(s, other diagram.System) string {
	var out []string
	switch {
	case s.Known():
		out = append(out, s.String())
	case s.Voltage > 0:
		out = append(out, fmt.Sprintf("%.4g V", s.Voltage))
	}
	if otherFrequency(s, other) {
		out = append(out, fmt.Sprintf("%.4g Hz", s.Frequency))
	}
	return strings.Join(out, ", ")
}

// throws compares the two sides of a transfer switch.
func throws(part *diagram.Part, normal, emergency *Node) []Finding {
	a, b := normal.System, emergency.System
	if differs(a, b) == "" && differs(b, a) == "" {
		return nil
	}
	records := []diagram.ID{part.ID}
	for _, side := range []*Node{normal, emergency} {
		if side.Source != "" {
			records = append(records, side.Source)
		}
	}
	return []Finding{{
		Rule: "voltage.transfer sides", Severity: Error, Subject: SubjectVoltage, Records: records,
		What:   fmt.Sprintf("%s gets %s on its normal side and %s on its emergency side", nameOf(part), textBeside(a, b), textBeside(b, a)),
		Why:    "what it feeds gets another system when it changes over",
		Remedy: "correct whichever of the two is wrong",
	}}
}
