package handrule_test

import (
	"fmt"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/draw/drawtest"
)

// laboratory is a building of middling size: a service with a main
// switchboard, panels at 480 V, a laboratory and a server room behind
// transformers, a standby generator, a pedestal far off and a spare panel
// behind an open switch.
func laboratory(t *testing.T) *sheet {
	s := newSheet(t).supply("service", wye480)
	s.part(diagram.Part{ID: "generator", Kind: diagram.Generator, System: wye480})
	s.part(diagram.Part{ID: "transfer", Kind: diagram.TransferSwitch})
	s.part(diagram.Part{
		ID: "main", Kind: diagram.Switchboard, Name: "Main switchboard", Withstand: category(4),
		Board: diagram.BoardData{Service: true, Bonded: true},
	})
	s.transformer("T1", wye480, wye208).transformer("T2", wye480, wye208)
	s.boards("chiller", "pumps", "lab", "lab-2", "servers", "spare")
	s.load("chiller-motor", diagram.ThreeWire).load("pump", diagram.ThreeWire).load("rack", diagram.ToNeutral).load("bench", "")
	s.part(diagram.Part{ID: "pedestal", Kind: diagram.Panel})
	s.part(diagram.Part{
		ID: "analyser", Kind: diagram.Load, Load: diagram.LoadData{Connection: diagram.ToNeutral},
		Withstand: diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 5},
	})
	s.feed(6, "service > main", "generator > transfer:emergency").feed(15, "main > transfer:normal", "main > chiller")
	s.feed(25, "transfer:load > pumps", "chiller > chiller-motor").feed(4, "pumps > pump", "T1:secondary > lab", "T2:secondary > servers")
	s.feed(12, "main > T1:primary", "transfer:load > T2:primary").feed(8.5, "lab > lab-2", "lab > analyser", "lab-2 > bench", "servers > rack")
	s.feed(90, "main > pedestal").open(10, "main > spare")

	first := protector("spd-1", "main", wye480, levels{1200, 1200, 0, 2000})
	first.Name = "SPD-1"
	first.Leads = diagram.Leads{
		Phase: diagram.Lead{Length: 18 * inch}, Neutral: diagram.Lead{Length: 12 * inch}, Earth: diagram.Lead{Length: 24 * inch},
		Run: diagram.Twisted, Bends: 2,
	}
	second := protector("spd-2", "lab", wye208, levels{700, 0, 700, 0})
	second.Name = "SPD-2"
	third := protector("spd-3", "pumps", wye208, levels{700, 700, 700, 1200})
	fourth := protector("spd-4", "pedestal", wye480, levels{1300, 1300, 1300, 2200})
	fourth.Rating = diagram.Up
	fourth.Leads.Phase.Length, fourth.Leads.Neutral.Length, fourth.Leads.Earth.Length = 0.3, 0.3, 0.4
	return s.attach(first).attach(second).attach(third).attach(fourth)
}

// describe writes the buses with the working of every level.
func describe(doc *diagram.Document, buses map[diagram.ID]analysis.BusResult) string {
	var out strings.Builder
	for part := range doc.Parts() {
		bus, ok := buses[part.ID]
		if !ok {
			continue
		}
		fmt.Fprintf(&out, "%s, %s\n", doc.NameOf(part.ID), bus.System)
		for _, l := range bus.Levels {
			fmt.Fprintf(&out, "  %s %s, %s: %s\n", l.Mode, l.Verdict, l.Reason, l.Why)
			if !l.Judged {
				out.WriteString("      not judged\n")
			}
			for _, step := range l.Working {
				out.WriteString("      " + line(step) + "\n")
			}
		}
	}
	return out.String()
}

func line(s analysis.Step) string {
	out := s.Label + ": " + s.Text
	if s.Formula != "" {
		out += s.Formula + " = "
	}
	if s.Numbers != "" {
		out += s.Numbers + " = "
	}
	if s.Unit != "" {
		out += fmt.Sprintf("%.6g %s", s.Result, s.Unit)
	}
	if s.Source != "" {
		out += " [" + s.Source + "]"
	}
	return out
}

func TestGoldenLaboratory(t *testing.T) {
	doc := laboratory(t).doc
	topology := analysis.Trace(doc)
	drawtest.Text(t, "laboratory.txt", describe(doc, handrule.Explain(doc, diagram.FirstPlan, topology, handrule.DefaultRule())))
}
