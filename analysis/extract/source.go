package extract

import (
	"cmp"
	"fmt"
	"math"

	"clampline/analysis/usual"
	"clampline/diagram"
)

// addSources adds what the sources are that the surge does not come from:
// their short-circuit impedance from each line to the star point.
func (x *extractor) addSources() {
	for i, p := range x.places {
		if p.bus == None || !p.part.Kind.IsSource() || i == x.start {
			continue
		}
		x.addSource(p)
	}
}

func (x *extractor) addSource(p place) {
	name := x.nameOf(p)
	star, ok := x.conductor(p.bus, 'N')
	if !ok {
		star = x.addFloating(x.unique(name + " star"))
		if p.system.Wiring != diagram.Delta {
			x.earth(p, star)
		}
	}
	frequency := x.frequency(p.part.ID, p.system)
	ohms := x.sourceOhms(p)
	xr := cmp.Or(p.part.Source.XR, usual.SurgeSourceXR)
	r := ohms / math.Hypot(1, xr)
	for _, letter := range x.linesOf(p.bus) {
		node, _ := x.conductor(p.bus, letter)
		x.addInductor(x.unique(name+" "+string(letter)), node, star, max(r*xr/(2*math.Pi*frequency), jointInductance), r)
	}
}

// sourceOhms returns the impedance of a source from each line to the middle of the
// lines: of two lines half of what is between them. The neutral of a high-leg
// system lies off that middle.
func (x *extractor) sourceOhms(p place) float64 {
	u, data := max(p.system.LineToNeutral(), 1), p.part.Source
	switch {
	case p.system.Lines() == 2:
		u = max(p.system.Voltage/2, 1)
	case p.system.Wiring == diagram.HighLeg:
		u = max(p.system.Voltage/math.Sqrt(3), 1)
	}
	switch {
	case data.FaultCurrent > 0:
		return u / max(data.FaultCurrent, 1)
	case p.part.Kind == diagram.Generator || data.Power > 0 && data.Reactance > 0:
		power, reactance := cmp.Or(data.Power, usual.SurgeGenerator), cmp.Or(data.Reactance, usual.SurgeReactance)
		if data.Power <= 0 || data.Reactance <= 0 {
			x.assume(p.part.ID, fmt.Sprintf("is taken as %g kVA with %g %% where the sheet does not say", usual.SurgeGenerator/1e3, usual.SurgeReactance), "from memory")
		}
		return reactance / 100 * float64(p.system.Lines()) * u * u / max(power, 1)
	}
	x.assume(p.part.ID, fmt.Sprintf("its fault current is taken as %g kA", usual.SurgeFaultCurrent/1e3), "common practice, no source")
	return u / usual.SurgeFaultCurrent
}
