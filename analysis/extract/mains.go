package extract

import (
	"math"
	"math/cmplx"

	"clampline/analysis"
	"clampline/diagram"
)

// mains returns what the mains puts on each conductor of a place against earth at the
// moment of the surge, V, in the order of the bus; nil where that does not count.
func (x *extractor) mains(p place) []float64 {
	if x.Vary == nil || x.Vary.Mains == nil || !p.node.Fed {
		return nil
	}
	turn := x.turnOf(p.node.Zone, len(x.places)) * cmplx.Rect(math.Sqrt2, *x.Vary.Mains)
	phasors := phasorsOf(p.system)
	var out []float64
	for _, letter := range letters(p.system) {
		out = append(out, real(phasors[byte(letter)]*turn))
	}
	return out
}

// turnOf returns by how much the phasors of a zone are turned against those of its
// supply. Each transformer turns them from the winding of its primary that pairs
// first to that of its secondary. most is how many it can be away from the supply.
func (x *extractor) turnOf(zone diagram.End, most int) complex128 {
	part, ok := x.Document.Part(zone.Part)
	if !ok || part.Kind != diagram.Transformer || most == 0 {
		return 1
	}
	sides := [2]*analysis.Node{x.Topology.Nodes[diagram.End{Part: part.ID, Port: diagram.Primary}], x.Topology.Nodes[diagram.End{Part: part.ID, Port: diagram.Secondary}]}
	wound := [2]diagram.System{sides[0].System, sides[1].System} // as addTransformer has them
	if made := part.Transformer.Primary; made.Known() {
		wound[0] = made
	}
	if part.System.Known() {
		wound[1] = part.System
	}
	from, to := firstWinding(wound[0], wound[1], true), firstWinding(wound[1], wound[0], false)
	near := sides[0]
	if zone.Port == diagram.Primary {
		from, to, near = to, from, sides[1]
	}
	out := x.turnOf(near.Zone, most-1)
	if from == 0 || to == 0 || part.Transformer.Auto {
		return out
	}
	return out * direction(from) / direction(to)
}

// direction returns a voltage without its size.
func direction(v complex128) complex128 { return v / complex(cmplx.Abs(v), 0) }

// firstWinding returns the voltage of the winding of a side that pairs first with one
// of the other, as extractor.pairs has it.
func firstWinding(side, other diagram.System, primary bool) complex128 {
	v := phasorsOf(side)
	toStar := false
	switch side.Wiring {
	case diagram.Wye:
		toStar = !primary || other.Phases() == 3 || other.Wiring == diagram.TwoOfWye
	case diagram.TwoOfWye, diagram.Split:
		toStar = !primary
	case diagram.Single:
		toStar = side.Neutral
	}
	if toStar {
		return v['A'] - v['N']
	}
	return v['A'] - v['B']
}

// phasorsOf returns the voltages of the conductors of a system against earth, V rms.
// 'N' is the star point, also where it is not brought out. A star point that is not
// held to earth lies there all the same where the lines are alike.
func phasorsOf(s diagram.System) map[byte]complex128 {
	at := func(volts, degrees float64) complex128 { return cmplx.Rect(volts, degrees*math.Pi/180) }
	u := s.LineToNeutral()
	out := map[byte]complex128{'A': at(u, 0), 'B': at(u, -120), 'C': at(u, 120)}
	switch s.Wiring {
	case diagram.Split:
		out['B'] = at(u, 180)
	case diagram.HighLeg:
		out['B'], out['C'] = at(u*math.Sqrt(3), -90), at(u, 180)
	}
	if s.Earthing == diagram.Corner {
		b := out['B']
		for _, letter := range []byte("ABCN") {
			out[letter] -= b
		}
	}
	return out
}
