package extract

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

// addSurge adds the generators. A surge on several lines comes from as many
// generators, each of as many times the impedance, so that together they are
// the one that the case names and the lines are not joined by it.
func (x *extractor) addSurge() error {
	p := x.places[x.start]
	struck, back := x.strikes(p)
	if len(struck) == 0 {
		return x.problem("choose another path or part", "%s has no conductors for a surge %s", x.nameOf(p), x.Surge.Path)
	}
	if x.Surge.Voltage <= 0 || x.Surge.Current <= 0 {
		return x.problem("state both", "its voltage and current must be above zero")
	}
	ohms, crest := x.impedance()*float64(len(struck)), x.Surge.Voltage*x.Vary.crest()
	for _, node := range struck {
		name := x.unique("surge on " + x.net.Names[node])
		if g, is := waveform.GeneratorOf(string(x.Surge.Wave), crest, ohms); is {
			x.net.AddCombination(name, node, back, g)
			continue
		}
		shape, known := waveform.ShapeOf(string(x.Surge.Wave))
		if !known {
			return x.problem("choose another", "the wave %q is not known", x.Surge.Wave)
		}
		x.net.Sources = append(x.net.Sources, circuit.Source{Name: name, A: node, B: back, Volts: crest, Shape: shape, Ohms: ohms})
	}
	return nil
}

// impedance returns what stands between the open-circuit voltage and the
// short-circuit current, ohm, within what a generator can have.
func (x *extractor) impedance() float64 {
	const least, most = 0.01, 1e5
	ohms := x.Surge.Voltage / x.Surge.Current
	if out := min(max(ohms, least), most); out != ohms {
		x.assume(x.Surge.Part, fmt.Sprintf("the impedance of the surge case counts as %s, since no generator has %s", analysis.FigureIn(out, "Ω"), analysis.FigureIn(ohms, "Ω")), "of the model")
		return out
	}
	return ohms
}

// strikes returns the conductors that the surge is on, and the one that it
// returns by. A path that the place does not have gives the nearest that it
// has: to earth where there is no neutral.
func (x *extractor) strikes(p place) (struck []circuit.Node, back circuit.Node) {
	lines := x.nodesOf(p.bus, string(x.linesOf(p.bus)))
	neutral, hasNeutral := x.conductor(p.bus, 'N')
	if len(lines) == 0 {
		return nil, circuit.Earth
	}
	switch x.Surge.Path {
	case diagram.LinesToEarth:
		return lines, circuit.Earth
	case diagram.LineToEarth:
		return lines[:1], circuit.Earth
	case diagram.LineToNeutral:
		if hasNeutral {
			return lines[:1], neutral
		}
		x.assume(p.part.ID, "has no neutral: the surge arrives between two lines, or on the line to earth", "from the sheet")
		return x.betweenLines(lines)
	case diagram.LineToLine:
		if len(lines) > 1 {
			return x.betweenLines(lines)
		}
		x.assume(p.part.ID, "has one line: the surge arrives between it and the neutral", "from the sheet")
		return lines, neutral
	case diagram.NeutralToEarth:
		if hasNeutral {
			return []circuit.Node{neutral}, circuit.Earth
		}
	}
	return nil, circuit.Earth
}

func (x *extractor) betweenLines(lines []circuit.Node) ([]circuit.Node, circuit.Node) {
	if len(lines) > 1 {
		return lines[:1], lines[1]
	}
	return lines, circuit.Earth
}
