package analysis

import (
	"fmt"
	"slices"

	"clampline/diagram"
)

// findings collects what the walk has met.
func (t *tracer) findings(islands []island) []Finding {
	if len(t.terminals) == 0 {
		return nil
	}
	var out []Finding
	if slices.ContainsFunc(t.parts, func(p diagram.Part) bool { return p.Kind.IsSource() }) {
		out = t.unfed(islands)
	} else {
		out = []Finding{noSupply()}
	}
	out = append(out, t.closures()...)
	out = append(out, t.againstTheFlow()...)
	return append(out, t.misfits()...)
}

func noSupply() Finding {
	return Finding{
		Rule: "supply.none", Severity: Error, Subject: SubjectSupply,
		What:   "There is no supply or generator on the sheet",
		Why:    "nothing tells which way power flows, or at what voltage",
		Remedy: "place a supply and lead a feeder from it to the first board",
	}
}

// unfed reports the islands. The throw of a transfer switch that is not
// selected, with nothing on it, is none.
func (t *tracer) unfed(islands []island) []Finding {
	var out []Finding
	for _, dead := range islands {
		single := len(dead.terminals) == 1 && t.partOf(dead.terminals[0]).Kind == diagram.TransferSwitch
		if !single {
			out = append(out, t.unfedIsland(dead))
		}
	}
	return out
}

func (t *tracer) unfedIsland(dead island) Finding {
	who, parts := t.whoIsDead(dead)
	out := Finding{Rule: "supply.switched off", Detail: string(t.topPort(dead)), Severity: Warning, Subject: SubjectSupply, Records: parts}
	if len(dead.gaps) == 0 {
		out.Rule = "supply.not connected"
		out.What = who + " not fed"
		out.Why = "it is not connected to a supply or generator"
		out.Remedy = "connect a feeder to it, or remove it"
		return out
	}
	var names []string
	for _, w := range dead.gaps {
		id, _ := t.recordOf(w)
		out.Records = append(out.Records, id)
		names = append(names, t.switchName(w))
	}
	out.Records = unique(out.Records)
	out.What = fmt.Sprintf("%s not fed; open on the way: %s", who, List(names))
	out.Why = "what lies beyond an open switch is dead until it is closed"
	out.Remedy = "close the switch if it is meant to be closed"
	return out
}

// topPort returns the port of the terminal at the top of an island: two islands may
// begin at one transfer switch.
func (t *tracer) topPort(dead island) diagram.Port {
	for _, terminal := range dead.terminals {
		if t.root[terminal] == terminal {
			return t.terminals[terminal].port
		}
	}
	return ""
}

// switchName names what is open: the feeder with its switch, or the transfer
// switch with its position.
func (t *tracer) switchName(w int) string {
	_, name := t.recordOf(w)
	if t.kind(w) == "" {
		return name
	}
	return fmt.Sprintf("%s set to %s", name, t.partOf(t.ways[w].from).Transfer.Selected())
}

// whoIsDead returns the start of a sentence on an island, with its verb, and
// the parts at its top.
func (t *tracer) whoIsDead(dead island) (string, []diagram.ID) {
	var names []string
	var tops []diagram.ID
	parts := map[int]bool{}
	for _, terminal := range dead.terminals {
		part := t.partOf(terminal)
		parts[t.terminals[terminal].part] = true
		if t.root[terminal] == terminal && !slices.Contains(tops, part.ID) && len(tops) < namesInSentence-1 {
			tops = append(tops, part.ID)
			names = append(names, nameOf(part))
		}
	}
	if rest := len(parts) - len(tops); rest > 0 {
		names = append(names, countOf(rest, "more part"))
	}
	verb := " are"
	if len(parts) == 1 {
		verb = " is"
	}
	return List(names) + verb, tops
}

// againstTheFlow reports feeders whose To lies nearer to the supply than
// their From.
func (t *tracer) againstTheFlow() []Finding {
	var out []Finding
	for i, w := range t.ways {
		if w.feeder == none || t.via[w.from] != i || !t.nodes[w.from].Fed {
			continue
		}
		id, name := t.recordOf(i)
		out = append(out, Finding{
			Rule: "feeder.against flow", Severity: Remark, Subject: SubjectFeeder, Records: []diagram.ID{id},
			What:   fmt.Sprintf("%s is drawn against the flow: %s feeds %s", name, nameOf(t.partOf(w.to)), nameOf(t.partOf(w.from))),
			Why:    "power comes from the end that is drawn as the far one; the results take it as it flows",
			Remedy: "swap the ends of the feeder",
			Mend:   MendFeeder(id, "swap the ends of …", name, func(f *diagram.Feeder) { f.From, f.To = f.To, f.From }),
		})
	}
	return out
}
