package assess

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// differStep says why the two bases judge a mode of a bus otherwise, and false where
// they do not.
func (e explainer) differStep(bus diagram.ID, solved analysis.Level) (analysis.Step, bool) {
	for _, hand := range e.hand.Levels {
		if hand.Mode != solved.Mode || hand.Verdict == solved.Verdict || !solved.Known || hand.Verdict == analysis.Unknown || solved.Verdict == analysis.Unknown {
			continue
		}
		return analysis.Step{
			Label:  "why they differ",
			Text:   fmt.Sprintf("of %s the hand rule says %s, the transient says %s, because %s", solved.Mode, hand.Verdict, solved.Verdict, e.because(bus, hand, solved)),
			Source: fromModel,
		}, true
	}
	return analysis.Step{}, false
}

// otherDecides says in the mode that decides why the bases judge a board or load
// otherwise, where it is another mode that decides by the hand rule.
func (e explainer) otherDecides(bus diagram.ID, worst analysis.Level) (analysis.Step, bool) {
	levels, hand := e.result.Buses[bus].Levels, e.hand.Worst()
	if levels[0].Mode != worst.Mode || hand.Verdict == worst.Verdict {
		return analysis.Step{}, false
	}
	for _, level := range levels {
		if level.Mode == hand.Mode {
			return e.differStep(bus, level)
		}
	}
	return analysis.Step{}, false
}

// because finds what the one basis sees and the other does not.
func (e explainer) because(bus diagram.ID, hand, solved analysis.Level) string {
	at, _, _ := worstCase(bus, solved.Mode, e.result.Surges)
	surge := e.result.Surges[at].From(solved.Origin, solved.Filtered)
	switch {
	case e.bornInside(surge.Surge):
		return fmt.Sprintf("the surge is born at %s, and the hand rule knows of surges from the supply alone", e.doc.NameOf(surge.Surge.Part))
	case solved.Volts < 1:
		return fmt.Sprintf("“%s” comes on these conductors alike, so that nothing stands between them", analysis.SurgeName(e.doc, surge.Surge))
	case len(surge.Failed) > 0:
		return fmt.Sprintf("the surge destroys %s, which the hand rule does not see", namesOf(e.doc, surge.Failed))
	case !hand.Known:
		return e.unreached(bus, solved, surge)
	case hand.Volts > solved.Volts:
		return e.lower(bus, hand, solved, surge)
	}
	above, _, found := e.above(bus)
	if before, known := surge.Worst(above, solved.Mode); found && known && solved.Volts > rises*before.Volts {
		return fmt.Sprintf("the wave is thrown back where its way ends: %s at %s, %s here", wholeVolts(before.Volts), e.doc.NameOf(above), wholeVolts(solved.Volts))
	}
	return fmt.Sprintf("“%s” asks more of what protects than the surge of the hand rule: %s are solved where that counts %s", analysis.SurgeName(e.doc, surge.Surge), wholeVolts(solved.Volts), wholeVolts(hand.Volts))
}

// rises is how many times the voltage above one has to be for it to count as risen.
const rises = 1.05

func wholeVolts(v float64) string {
	if v < 1 {
		return "less than 1\u00a0V"
	}
	return analysis.FigureIn(significant(v), "V")
}

// bornInside reports whether a surge arrives at something that is no source.
func (e explainer) bornInside(s diagram.Surge) bool {
	part, ok := e.doc.Part(s.Part)
	return ok && !part.Kind.IsSource()
}

// above returns the nearest board or load on the way to the source, and the
// transformer between, if there is one.
func (e explainer) above(bus diagram.ID) (id, transformer diagram.ID, found bool) {
	part, _ := e.doc.Part(bus)
	node := e.result.Topology.Node(part)
	for node != nil && node.Up != nil {
		node = node.Up
		host, _ := e.doc.Part(node.At.Part)
		switch {
		case host.Kind.IsJudged() && host.ID != bus:
			return host.ID, transformer, true
		case host.Kind == diagram.Transformer:
			transformer = host.ID
		}
	}
	return "", transformer, false
}

// unreached says why something is solved where the hand rule has no figure.
func (e explainer) unreached(bus diagram.ID, solved analysis.Level, surge analysis.SurgeResult) string {
	above, transformer, found := e.above(bus)
	if before, known := surge.Worst(above, solved.Mode); found && known && transformer != "" && before.Volts > solved.Volts {
		return fmt.Sprintf("%s lets less through than arrives: %s at %s before it, %s here", e.doc.NameOf(transformer), wholeVolts(before.Volts), e.doc.NameOf(above), wholeVolts(solved.Volts))
	}
	return e.taken(surge, solved)
}

// lower says why less is solved than the hand rule counts: what protects holds it
// lower at its place, and the wiring lets it rise less from there.
func (e explainer) lower(bus diagram.ID, hand, solved analysis.Level, surge analysis.SurgeResult) string {
	p, ok := e.doc.Protector(hand.Protector)
	at, known := surge.Worst(p.Bus, solved.Mode)
	if !ok || !known || p.Bus == bus {
		return fmt.Sprintf("what protects and its leads hold “%s” to %s, and the hand rule counts the rating and every lead in full, %s",
			analysis.SurgeName(e.doc, surge.Surge), wholeVolts(solved.Volts), wholeVolts(hand.Volts))
	}
	begins := hand.Volts
	for _, level := range e.handAt(p.Bus).Levels {
		if level.Mode == solved.Mode && level.Known {
			begins = level.Volts
		}
	}
	return fmt.Sprintf("at %s on %s %s are solved and %s counted, and on the way here it rises by %s solved and by %s counted",
		e.doc.NameOf(p.ID), e.doc.NameOf(p.Bus), wholeVolts(at.Volts), wholeVolts(begins), wholeVolts(max(0, solved.Volts-at.Volts)), wholeVolts(max(0, hand.Volts-begins)))
}

// handAt returns what the hand rule finds at a bus. A sheet has few buses with
// protectors beside those that ask, so each is found once.
func (e explainer) handAt(bus diagram.ID) analysis.BusResult {
	if _, known := e.hands[bus]; !known {
		e.hands[bus] = handrule.Explain(e.doc, e.result.Plan, e.result.Topology, handrule.DefaultRule(), bus)[bus]
	}
	return e.hands[bus]
}

// taken says which protector takes most of a surge from a bus for which the hand rule
// counts none.
func (e explainer) taken(surge analysis.SurgeResult, solved analysis.Level) string {
	var most analysis.Duty
	var by diagram.ID
	for p := range e.doc.ProtectorsOf(e.result.Plan) {
		for _, d := range surge.Protectors[p.ID] {
			if d.Amps > most.Amps {
				most, by = d, p.ID
			}
		}
	}
	if most.Amps < leastAmps {
		return fmt.Sprintf("no protector takes part, and the hand rule gives no figure then; “%s” reaches %s here", analysis.SurgeName(e.doc, surge.Surge), wholeVolts(solved.Volts))
	}
	p, _ := e.doc.Protector(by)
	return fmt.Sprintf("%s on %s takes %s of the surge, wherever it stands: %s are left here, and the hand rule counts a protector only upstream in the same zone",
		e.doc.NameOf(by), e.doc.NameOf(p.Bus), analysis.FigureIn(significant(most.Amps), "A"), wholeVolts(solved.Volts))
}
