package extract

import (
	"fmt"
	"math"

	"clampline/analysis/circuit"
	"clampline/analysis/usual"
	"clampline/diagram"
)

// jointInductance is that of a busbar or joint, H.
const jointInductance = 50e-9

// addTransformers adds every transformer that the surge reaches.
func (x *extractor) addTransformers() {
	for part := range x.Document.Parts() {
		if part.Kind != diagram.Transformer {
			continue
		}
		primary, secondary := x.at[diagram.End{Part: part.ID, Port: diagram.Primary}], x.at[diagram.End{Part: part.ID, Port: diagram.Secondary}]
		if x.places[primary].bus != None && x.places[secondary].bus != None {
			x.mustJoin(primary, secondary)
			x.addTransformer(part, x.places[primary], x.places[secondary])
		}
	}
}

// side is one side of a transformer: its bus, what it is wound for, and the
// point where its windings meet, where there is one.
type side struct {
	bus    int
	system diagram.System
	star   circuit.Node
	hasMid bool
}

func (x *extractor) addTransformer(part diagram.Part, p, s place) {
	name := x.Document.NameOf(part.ID)
	t := x.ratings(part)
	primary, secondary := side{bus: p.bus, system: p.system}, side{bus: s.bus, system: s.system}
	if made := part.Transformer.Primary; made.Known() {
		primary.system = made
	}
	if part.System.Known() { // fed from behind, what arrives may be something else
		secondary.system.Wiring, secondary.system.Voltage = part.System.Wiring, part.System.Voltage
	}
	if part.Transformer.Auto {
		x.findStars(part, &primary, &secondary)
	} else {
		x.findStar(&primary, p, name+" primary star")
		x.findStar(&secondary, s, name+" secondary star")
		x.addWindingCapacitances(name, t, p, s)
	}
	frequency := x.frequency(part.ID, secondary.system)
	for _, pair := range x.pairs(part, primary, secondary) {
		x.addWinding(name, t, frequency, pair)
	}
}

// findStars gives both sides of an autotransformer the one point where its
// windings meet. Where they don't meet in a star, one line goes straight
// through.
func (x *extractor) findStars(part diagram.Part, primary, secondary *side) {
	name := x.Document.NameOf(part.ID)
	x.joinNeutrals(name, primary.bus, secondary.bus)
	for _, s := range []*side{primary, secondary} {
		if node, ok := x.conductor(s.bus, 'N'); ok {
			primary.star, secondary.star, primary.hasMid, secondary.hasMid = node, node, true, true
			return
		}
	}
	if hasStar(primary.system) && hasStar(secondary.system) {
		star := x.addFloating(x.unique(name + " star"))
		primary.star, secondary.star, primary.hasMid, secondary.hasMid = star, star, true, true
		return
	}
	for _, letter := range []byte("BA") {
		from, okA := x.conductor(primary.bus, letter)
		to, okB := x.conductor(secondary.bus, letter)
		if okA && okB {
			x.addInductor(x.unique(name+" common line"), from, to, jointInductance, 0)
			x.assume(part.ID, "line "+string(letter)+" is taken to go straight through, as in an autotransformer without a star", "common practice, no source")
			return
		}
	}
}

// ratings returns the transformer's data with what the sheet does not say
// filled in.
func (x *extractor) ratings(part diagram.Part) diagram.TransformerData {
	t := part.Transformer
	if t.Power <= 0 {
		t.Power = usual.SurgeTransformer
		x.assume(part.ID, fmt.Sprintf("its power is taken as %g kVA", usual.SurgeTransformer/1e3), "common practice, no source")
	}
	if t.Impedance <= 0 {
		t.Impedance = usual.SurgeImpedance
		x.assume(part.ID, fmt.Sprintf("its impedance is taken as %g %%", usual.SurgeImpedance), usual.SurgeImpedanceSource)
	}
	if t.XR <= 0 {
		t.XR = usual.SurgeTransformerXR
	}
	t.Power, t.Impedance = max(t.Power, 1), max(t.Impedance, 0.01)
	return t
}

// hasStar reports whether the windings of a system meet in a point.
func hasStar(s diagram.System) bool {
	return s.Wiring != diagram.Delta && (s.Wiring != diagram.Single || s.Neutral)
}

// findStar gives a side the point where its windings meet: the neutral, or a
// node of its own where that is not brought out. Such a node of a secondary is
// earthed as its system says.
func (x *extractor) findStar(s *side, at place, name string) {
	if !hasStar(s.system) {
		return
	}
	s.hasMid = true
	if node, ok := x.conductor(s.bus, 'N'); ok && s.system.Neutral {
		s.star = node
		return
	}
	s.star = x.addFloating(x.unique(name))
	if at.node.Zone == at.end {
		x.earth(at, s.star)
	}
}

// addWinding adds the coupling of two windings, with the leakage seen from the
// secondary: Z = (%Z / 100) V² / S of the winding.
func (x *extractor) addWinding(name string, t diagram.TransformerData, frequency float64, pair windingPair) {
	ohms := t.Impedance / 100 * pair.s.volts * pair.s.volts / (t.Power / pair.share)
	r := ohms / math.Hypot(1, t.XR)
	x.net.Windings = append(x.net.Windings, circuit.Winding{
		Name: x.unique(name + " winding"), P: pair.p.Branch, S: pair.s.Branch,
		Ratio:   pair.p.volts / pair.s.volts,
		Henries: max(r*t.XR/(2*math.Pi*frequency), jointInductance), Ohms: r,
	})
}

// frequency returns that of a system, Hz.
func (x *extractor) frequency(record diagram.ID, s diagram.System) float64 {
	switch {
	case s.Frequency > 0:
		return min(max(s.Frequency, 10), 1000)
	case s.Earthing.IsIEC():
		return 50
	}
	x.assume(record, "its frequency is taken as 60 Hz", "common practice, no source")
	return 60
}

// Capacitances of a dry 600 V transformer of 75 kVA, F, as totals of its
// three phases: between its windings, from each to earth, and what is left
// between the windings where a screen is. They grow with the root of the power
// (0.5 to 5 nF and 10 to 100 pF: from memory, wide; nothing measured was
// found).
const (
	betweenWindings = 2e-9
	windingToEarth  = 2e-9
	pastScreen      = 30e-12
)

// addWindingCapacitances spreads the capacitances over the lines.
func (x *extractor) addWindingCapacitances(name string, t diagram.TransformerData, p, s place) {
	size := math.Sqrt(min(max(t.Power, 1e3), 5e6) / usual.SurgeTransformer)
	between, toEarth := betweenWindings*size, windingToEarth*size
	if t.Screen {
		toEarth += between
		between = pastScreen
	}
	for _, i := range []int{p.bus, s.bus} {
		lines := x.linesOf(i)
		for _, letter := range lines {
			node, _ := x.conductor(i, letter)
			x.addCapacitor(x.unique(name+" to earth"), node, circuit.Earth, toEarth/float64(len(lines)))
		}
	}
	both := shared(string(x.linesOf(p.bus)), string(x.linesOf(s.bus)))
	for _, letter := range []byte(both) {
		a, _ := x.conductor(p.bus, letter)
		b, _ := x.conductor(s.bus, letter)
		x.addCapacitor(x.unique(name+" between windings"), a, b, between/float64(len(both)))
	}
}

func (x *extractor) linesOf(bus int) []byte {
	var out []byte
	for _, c := range x.net.Buses[bus].Conductors {
		if c.Letter != 'N' {
			out = append(out, c.Letter)
		}
	}
	return out
}
