package extract

import (
	"math"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/protector"
	"clampline/diagram"
)

// bundle is what a metre of feeder is to a surge.
type bundle struct {
	l     circuit.Matrix   // H/m
	r     circuit.Balanced // ohm/m
	speed float64          // m/s
}

// Permittivities of what lies between the conductors, relative to vacuum
// (derived: insulation of about 3.5 with air between the wires). A bundle of
// touching insulated wires has a wave speed of 160 to 190 m/µs, loose ones
// more; modelling practice is 0.6 to 0.7 of the speed of light (from memory of
// power-line communication and surge literature).
const (
	looseInsulation = 2.25 // two thirds of the speed of light
	tightInsulation = 3.0
	overheadSpacing = 0.3     // m, between neighbours of a row of open conductors (common practice, no source)
	busbarLoop      = 0.12e-6 // H/m of each bar of a busway (from memory)
)

// makeUp returns what a metre of a feeder with m conductors is to a surge that a
// frequency stands for, Hz. Wires in no shell of metal lie at their own distances
// from each other and from an earth wire like them, of which all share the
// resistance.
func makeUp(f diagram.Feeder, m int, tone float64) bundle {
	resistivity := conductor.Copper
	if f.Material == diagram.Aluminium {
		resistivity = conductor.Aluminium
	}
	if f.Resistance > 0 {
		resistivity = f.Resistance * f.Area // of the metal as it is there, twisted and warm
	}
	ohms := protector.SurgeResistance(f.Area, resistivity, tone)
	out := bundle{r: circuit.Balanced{Own: ohms, Mutual: ohms}}
	radius, permittivity := radiusOf(f.Area), looseInsulation
	switch f.Raceway {
	case diagram.SteelConduit, diagram.AluminiumConduit:
		out.l, out.r.Mutual = inShell(f.Area, m, 2.5*protector.InsulatedDiameter(f.Area)).Matrix(m), 0
	case diagram.ArmouredCable:
		out.l, out.r.Mutual = inShell(f.Area, m, 1.5*protector.InsulatedDiameter(f.Area)).Matrix(m), 0
		permittivity = tightInsulation
	case diagram.SheathedCable:
		out.l = sheathed(f.Area, m).inductance(radius)
		permittivity = tightInsulation
	case diagram.Busway:
		out.l, out.r.Mutual = circuit.Balanced{Own: busbarLoop, Mutual: busbarLoop / 2}.Matrix(m), 0
		permittivity = tightInsulation
	case diagram.Overhead:
		out.l = inRow(m, overheadSpacing).inductance(radius)
		permittivity = 1.05
	default:
		out.l = loose(f.Area, m).inductance(radius)
		if f.Lay == diagram.TightLay {
			out.l = tight(f.Area, m).inductance(radius)
			permittivity = tightInsulation
		}
	}
	out.speed = lightSpeed / math.Sqrt(permittivity)
	sets := float64(max(1, f.Parallel))
	out.l, out.r = out.l.Scaled(1/sets), out.r.Scaled(1/sets)
	return out
}

// inShell returns the inductances of m conductors evenly round the axis of a
// metal tube that carries their return: those of line currents with their
// images in the tube (derived; standard line theory). pitch is the distance of
// a conductor from the opposite one.
func inShell(area float64, m int, pitch float64) circuit.Balanced {
	r, tube := radiusOf(area), max(conduitRadius(area, m+1), 0.75*pitch)
	b := min(pitch/2, tube/2)
	self := math.Log((tube*tube - b*b) / (tube * r))
	mutual := 0.0
	for j := 1; j < m; j++ {
		angle := 2 * math.Pi * float64(j) / float64(m)
		image := math.Sqrt(math.Pow(b, 4) + math.Pow(tube, 4) - 2*b*b*tube*tube*math.Cos(angle))
		mutual += math.Log(image/(tube*2*b*math.Sin(angle/2))) / float64(m-1)
	}
	return circuit.Balanced{Own: 0.2e-6 * (self - mutual), Mutual: 0.2e-6 * mutual}
}
