package analysis

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// typical is what a well-made panel protector for a system states, as the
// trade's specifications have it: values to start from, not a listing. Most
// are from memory; the row for 208Y/120 agrees with a public guide
// specification for section 26 43 13 (L-N 700 V, L-G 700 V, L-L 1200 V).
type typical struct {
	levels [diagram.ModeCount]float64 // V, L-N L-G N-G L-L; 0 where the mode is not connected
	mcov   [diagram.ModeCount]float64 // V rms
}

// TypicalFor returns a protector to start from for the system that arrives at
// the part, found by one Trace.
func TypicalFor(doc *diagram.Document, host diagram.Part) diagram.Protector {
	if node := Trace(doc).Node(host); node != nil {
		if p, ok := TypicalOn(host, node.System); ok {
			return p
		}
		return TypicalProtector(node.System)
	}
	return TypicalProtector(diagram.System{})
}

// usualNote tells a person who reads the record that nobody has read the device.
const usualNote = "Usual values to start from. Put in those of the nameplate, its SCCR, and the leads as measured."

// TypicalProtector returns a protector to start from for the system: its
// ratings as usual for it, but no SCCR, which must be read off the device, with the leads of a close mounting. Where the
// system is none of the usual ones, the ratings are left open. On TT no varistor
// leads from line to earth: a gap stands between neutral and earth (IEC 60364-5-53
// clause 534.4.3, connection type 2, from memory).
func TypicalProtector(s diagram.System) diagram.Protector {
	p := diagram.Protector{Type: diagram.Type2, Rating: diagram.VPR, System: s, In: 20e3, Note: usualNote}
	lead := diagram.Lead{Length: 0.1524, Area: unit.AWGArea(10)} // 6 in: the length of the listing test
	p.Breaker = diagram.BreakerData{Rated: 30, Poles: s.Lines()}
	if s.Earthing.IsIEC() {
		p.Type, p.Rating = diagram.ClassII, diagram.Up
		lead = diagram.Lead{Length: 0.25, Area: 6e-6} // two of them make the 0.5 m that IEC 60364-5-53 clause 534 prefers
		p.Breaker.Rated = 63
	}
	p.Leads = diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}
	usual := typicalOf(s)
	for mode, level := range usual.levels {
		if m := diagram.Mode(mode); level > 0 && s.HasMode(m) {
			p.Modes[mode] = diagram.ModeRating{Connected: true, Level: level, MCOV: usual.mcov[mode]}
		}
	}
	switch {
	case s.Earthing == diagram.TT && s.Neutral:
		p.Modes[diagram.LineEarth] = diagram.ModeRating{}
		p.Modes[diagram.NeutralEarth].Switching = true
	case s.Earthing == diagram.TNC:
		p.Modes[diagram.NeutralEarth] = diagram.ModeRating{} // one conductor is both
	}
	return p
}

// TypicalOn returns the typical protector for a part on which the system
// arrives: for a load one with the lines and the neutral that its connection
// takes. It is false where the bus has no
// such conductors, where on a high-leg delta the line is not known, or where only
// the neutral leads to earth through a gap and the load has none.
func TypicalOn(part diagram.Part, system diagram.System) (diagram.Protector, bool) {
	connection := diagram.Connection("")
	if part.Kind == diagram.Load {
		connection = part.Load.Connection
	}
	whole, taken := system, system
	gap := system.Neutral && system.Earthing == diagram.TT
	ok := true
	switch connection {
	case diagram.ToNeutral:
		taken.Wiring, taken.Voltage = diagram.Single, system.LineToNeutral()
		if system.Earthing.HoldsNeutral() { // else a line can have the voltage between lines to earth
			whole = taken
		}
		ok = system.Neutral && (system.Wiring != diagram.HighLeg || part.Load.Voltage > 0 && SameVoltage(part.Load.Voltage, taken.Voltage))
	case diagram.BetweenLines:
		whole.Neutral = false
		taken.Wiring, taken.Neutral = twoOf(system.Wiring), false
		ok = system.Lines() > 1 && !gap
	case diagram.ThreeWire:
		whole.Neutral = gap
		taken = whole
	}
	protector := TypicalProtector(whole)
	protector.System = taken
	protector.Breaker.Poles = taken.Lines()
	if taken.Lines() == 1 {
		protector.Modes[diagram.LineLine] = diagram.ModeRating{}
	}
	return protector, ok
}

// twoOf returns the wiring of two lines of another, without its neutral.
func twoOf(wiring diagram.Wiring) diagram.Wiring {
	switch wiring {
	case diagram.Wye, diagram.TwoOfWye:
		return diagram.TwoOfWye
	case diagram.Split:
		return diagram.Split
	}
	return diagram.Single
}

// typicalOf returns the ratings by what each mode has to stand: the voltage
// to earth first, since an unearthed system asks for more there.
func typicalOf(s diagram.System) typical {
	toEarth := s.HighestToEarth()
	switch {
	case s.Earthing.IsIEC():
		return typicalIEC(toEarth)
	case s.Wiring == diagram.HighLeg:
		return typical{levels: [4]float64{1200, 1200, 700, 1200}, mcov: [4]float64{320, 320, 150, 320}}
	case toEarth <= 140: // 139 V is what two lines of 240 V may have that do not say of what they are
		return typical{levels: [4]float64{700, 700, 700, 1200}, mcov: [4]float64{150, 150, 150, 300}}
	case toEarth <= 250 && s.Voltage <= 250:
		return typical{levels: [4]float64{1200, 1200, 1200, 1200}, mcov: [4]float64{320, 320, 320, 320}}
	case toEarth <= 290:
		return typical{levels: [4]float64{1200, 1200, 1200, 2000}, mcov: [4]float64{320, 320, 320, 640}}
	case toEarth <= 360:
		return typical{levels: [4]float64{1800, 1800, 1800, 3000}, mcov: [4]float64{420, 420, 420, 840}}
	case toEarth <= 500:
		return typical{levels: [4]float64{2000, 2000, 2000, 2000}, mcov: [4]float64{550, 550, 550, 550}}
	case toEarth <= 630:
		return typical{levels: [4]float64{2500, 2500, 2500, 2500}, mcov: [4]float64{690, 690, 690, 690}}
	}
	return typical{}
}

func typicalIEC(toEarth float64) typical {
	switch {
	case toEarth <= 240:
		return typical{levels: [4]float64{1500, 1500, 1500, 0}, mcov: [4]float64{275, 275, 255, 0}}
	case toEarth <= 400:
		return typical{levels: [4]float64{2500, 2500, 2500, 0}, mcov: [4]float64{460, 460, 460, 0}}
	}
	return typical{}
}
