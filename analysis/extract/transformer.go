package extract

import (
	"cmp"
	"math"

	"clampline/analysis/circuit"
	"clampline/diagram"
)

// What stands for what the sheet does not say of a transformer.
const (
	usualTransformer = 75e3 // VA
	usualImpedance   = 5.0  // per cent: three-phase dry units of 15 to 500 kVA have 3 to 6.5 (from memory)
	usualRatioXR     = 3.0  // reactance over resistance (from memory)
)

// jointInductance is that of a busbar or joint, H.
const jointInductance = 50e-9

// addTransformers adds every transformer that the surge reaches.
func (x *extractor) addTransformers() {
	for part := range x.Document.Parts() {
		if part.Kind != diagram.Transformer {
			continue
		}
		primary, okP := x.at[diagram.End{Part: part.ID, Port: diagram.Primary}]
		secondary, okS := x.at[diagram.End{Part: part.ID, Port: diagram.Secondary}]
		if okP && okS && x.places[primary].bus != None && x.places[secondary].bus != None {
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
	primary := side{bus: p.bus, system: p.system}
	if made := part.Transformer.Primary; made.Known() {
		primary.system = made
	}
	secondary := side{bus: s.bus, system: s.system}
	x.findStar(&primary, name+" primary star")
	if part.Transformer.Auto && primary.hasMid {
		secondary.star, secondary.hasMid = primary.star, true
	} else {
		x.findStar(&secondary, name+" secondary star")
	}
	for _, pair := range x.pairs(part, primary, secondary) {
		x.addWinding(name, t, pair)
	}
	x.addWindingCapacitances(name, t, p, s)
	if part.Transformer.Auto {
		x.joinNeutrals(name, p.bus, s.bus)
	}
	if !secondary.system.Earthing.HoldsNeutral() && secondary.system.Earthing == diagram.Impedance && secondary.hasMid {
		x.addResistor(x.unique(name+" earthing resistor"), secondary.star, circuit.Earth, x.earthingOhms(part.ID, secondary.system))
	}
}

// ratings returns the transformer's data with what the sheet does not say
// filled in.
func (x *extractor) ratings(part diagram.Part) diagram.TransformerData {
	t := part.Transformer
	if t.Power <= 0 {
		t.Power = usualTransformer
		x.assume(part.ID, "its power is taken as 75 kVA", "common practice, no source")
	}
	if t.Impedance <= 0 {
		t.Impedance = usualImpedance
		x.assume(part.ID, "its impedance is taken as 5 %", "three-phase dry units of 15 to 500 kVA have 3 to 6.5 %, from memory")
	}
	if t.XR <= 0 {
		t.XR = usualRatioXR
	}
	t.Power, t.Impedance = max(t.Power, 1), max(t.Impedance, 0.01)
	return t
}

// findStar gives a side the point where its windings meet: its neutral, or a
// node of its own where they are wye or single to neutral.
func (x *extractor) findStar(s *side, name string) {
	if s.system.Wiring == diagram.Delta || s.system.Wiring == diagram.Single && !s.system.Neutral {
		return
	}
	s.hasMid = true
	if node, ok := x.conductor(s.bus, 'N'); ok {
		s.star = node
		return
	}
	s.star = x.net.AddNode(x.unique(name))
	x.addResistor(x.unique(name+" insulation"), s.star, circuit.Earth, leak)
}

// winding is one winding of a side: its ends and its nominal voltage.
type winding struct {
	circuit.Branch
	volts float64
}

// windingPair is two windings on one core. share is how many such pairs make
// up the power of the transformer.
type windingPair struct {
	p, s  winding
	share float64
}

// pairs lists the windings that share a core. Where the two sides do not fit
// it says that nothing is coupled.
func (x *extractor) pairs(part diagram.Part, primary, secondary side) []windingPair {
	p, s := x.windings(primary), x.windings(secondary)
	var out []windingPair
	switch {
	case len(p) == 0 || len(s) == 0:
	case len(p) >= 3 && len(s) >= 3:
		for i := range s {
			out = append(out, windingPair{p[min(i, 2)], s[i], float64(3)})
		}
	case secondary.system.Phases() == 1 && len(p) > 0:
		first := x.singleWinding(primary, p)
		for i := range s {
			out = append(out, windingPair{first, s[i], float64(len(s))})
		}
	}
	if len(out) == 0 {
		x.assume(part.ID, "is taken to couple by its capacitances alone: its two sides do not fit each other, or one is not known", "from the sheet")
	}
	return out
}

// windings returns the windings of a side, in the order in which phases pair:
// of a high-leg delta the one with the centre tap in two halves, last.
func (x *extractor) windings(s side) []winding {
	between := func(a, b byte, volts float64) []winding {
		from, okA := x.conductor(s.bus, a)
		to, okB := x.conductor(s.bus, b)
		if !okA || !okB || volts <= 0 {
			return nil
		}
		return []winding{{circuit.Branch{A: from, B: to}, volts}}
	}
	toStar := func(letter byte, volts float64) []winding {
		node, ok := x.conductor(s.bus, letter)
		if !ok || volts <= 0 || !s.hasMid {
			return nil
		}
		return []winding{{circuit.Branch{A: node, B: s.star}, volts}}
	}
	v := s.system.Voltage
	switch s.system.Wiring {
	case diagram.Wye:
		u := s.system.LineToNeutral()
		return append(append(toStar('A', u), toStar('B', u)...), toStar('C', u)...)
	case diagram.Delta:
		return append(append(between('A', 'B', v), between('B', 'C', v)...), between('C', 'A', v)...)
	case diagram.HighLeg:
		out := append(between('A', 'B', v), between('B', 'C', v)...)
		if c, ok := x.conductor(s.bus, 'C'); ok && v > 0 {
			out = append(out, winding{circuit.Branch{A: c, B: s.star}, v / 2})
		}
		if a, ok := x.conductor(s.bus, 'A'); ok && v > 0 {
			out = append(out, winding{circuit.Branch{A: s.star, B: a}, v / 2})
		}
		return out
	case diagram.Split:
		out := toStar('A', v/2)
		if b, ok := x.conductor(s.bus, 'B'); ok && v > 0 {
			out = append(out, winding{circuit.Branch{A: s.star, B: b}, v / 2})
		}
		return out
	case diagram.Single:
		if s.system.Neutral {
			return toStar('A', v)
		}
		return between('A', 'B', v)
	}
	return nil
}

// singleWinding returns the primary winding of a single-phase transformer:
// between two lines where there are two, else the only one there is.
func (x *extractor) singleWinding(s side, all []winding) winding {
	a, okA := x.conductor(s.bus, 'A')
	b, okB := x.conductor(s.bus, 'B')
	if okA && okB {
		return winding{circuit.Branch{A: a, B: b}, s.system.Voltage}
	}
	return all[0]
}

// addWinding adds the coupling of two windings, with the leakage seen from the
// secondary: Z = (%Z / 100) V² / S of the winding.
func (x *extractor) addWinding(name string, t diagram.TransformerData, pair windingPair) {
	frequency := 60.0
	ohms := t.Impedance / 100 * pair.s.volts * pair.s.volts / (t.Power / pair.share)
	r := ohms / math.Hypot(1, t.XR)
	x.net.Windings = append(x.net.Windings, circuit.Winding{
		Name: x.unique(name + " winding"), P: pair.p.Branch, S: pair.s.Branch,
		Ratio:   pair.p.volts / pair.s.volts,
		Henries: max(r*t.XR/(2*math.Pi*frequency), jointInductance), Ohms: r,
	})
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
	size := math.Sqrt(min(max(t.Power, 1e3), 5e6) / usualTransformer)
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

// joinNeutrals joins the neutrals of two buses where both have one.
func (x *extractor) joinNeutrals(name string, a, b int) {
	from, okA := x.conductor(a, 'N')
	to, okB := x.conductor(b, 'N')
	if okA && okB {
		x.addCoil(x.unique(name+" neutral"), from, to, jointInductance, 0)
	}
}

// addTransfers joins the neutrals of transfer switches that do not switch
// them.
func (x *extractor) addTransfers() {
	for part := range x.Document.Parts() {
		if part.Kind != diagram.TransferSwitch || part.Transfer.SwitchesNeutral {
			continue
		}
		other := diagram.Normal
		if part.Transfer.Selected() == diagram.Normal {
			other = diagram.Emergency
		}
		a, okA := x.at[diagram.End{Part: part.ID, Port: other}]
		b, okB := x.at[diagram.End{Part: part.ID, Port: diagram.Common}]
		if okA && okB && x.places[a].bus != None && x.places[b].bus != None {
			x.mustJoin(a, b)
			x.joinNeutrals(x.Document.NameOf(part.ID), x.places[a].bus, x.places[b].bus)
		}
	}
}

// earthingOhms returns the resistor of an impedance-earthed star point: one
// that lets 5 A flow in a fault (common practice, no source).
func (x *extractor) earthingOhms(record diagram.ID, s diagram.System) float64 {
	x.assume(record, "its earthing resistor is taken to let 5 A flow", "common practice, no source")
	return cmp.Or(s.LineToNeutral(), 1) / 5
}
