package rule

import (
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// overvoltage is a temporary overvoltage of IEC 61643-11:2011 annex B, from
// memory: how much stands across a mode during a fault, for how long.
type overvoltage struct {
	volts   float64 // V rms
	seconds float64
	formula string
	cause   string
	mayFail bool // a protector may fail safely instead of standing it
}

const overvoltageSource = "IEC 61643-11:2011 annex B " + recalled

const (
	highVoltageFault = 1200.0 // V: from earth to the low-voltage neutral while a fault on the high-voltage side of the transformer lasts
	sqrt3            = 1.7320508075688772
)

// overvoltages returns the temporary overvoltages of a mode by the earthing of
// its system, the one that a protector has to stand first. Uref is 1.1 U0: 253 V
// at 230 V.
func overvoltages(system diagram.System, mode diagram.Mode) []overvoltage {
	reference := 1.1 * system.LineToNeutral()
	swell := overvoltage{1.32 * reference, 5, "1.32 Uref", "a fault in the installation", false}
	lostNeutral := overvoltage{sqrt3 * reference, 7200, "√3 Uref", "the loss of the neutral", true}
	switch {
	case mode == diagram.LineNeutral:
		return []overvoltage{swell, lostNeutral}
	case mode == diagram.LineEarth && system.Earthing == diagram.TT:
		return []overvoltage{
			{sqrt3 * reference, 5, "√3 Uref", "an earth fault in the low-voltage network", false},
			{highVoltageFault + reference, 0.2, "1200 V + Uref", "an earth fault on the high-voltage side", true},
		}
	case mode == diagram.LineEarth && system.Earthing == diagram.IT:
		return []overvoltage{{highVoltageFault + reference, 0.2, "1200 V + Uref", "an earth fault on the high-voltage side", true}}
	case mode == diagram.LineEarth && system.Earthing.IsIEC():
		return []overvoltage{swell, lostNeutral}
	case mode == diagram.NeutralEarth && system.Earthing == diagram.TT:
		return []overvoltage{{highVoltageFault, 0.2, "1200 V", "an earth fault on the high-voltage side", false}}
	}
	return nil
}

// overUc is how far above its Uc a protector is expected to stand five seconds:
// the standard asks for 1.32 times Uref, and a Uc may be as low as Uref
// (derived).
const overUc = 1.32

// weak returns the modes that do not seem to stand a temporary overvoltage which
// IEC has them stand. What a data sheet says of it is not on the drawing, so that
// the Uc has to tell. Those at which a protector may fail safely give no remark of
// their own: the usual ones do. Between neutral and earth none may fail.
func (s *site) weak() []diagram.Mode {
	if !s.iec || s.straightToEarth() {
		return nil
	}
	return s.modesWhere(s.weakFor)
}

// weakFor reports whether a varistor with the Uc of the mode is not expected to
// stand the temporary overvoltage that it has to.
func (s *site) weakFor(mode diagram.Mode) bool {
	uc, stated := bears(s.protector, mode)
	if !stated || s.protector.Modes[mode].Switching || s.onlyIfHeld(mode) || !s.reaches(uc, stated, s.least(mode)) {
		return false
	}
	all := overvoltages(s.system, mode)
	return len(all) > 0 && !all[0].mayFail && all[0].volts > overUc*uc+margin
}

func (s *site) linesWeak() []diagram.Mode {
	return slices.DeleteFunc(s.weak(), func(mode diagram.Mode) bool { return mode == diagram.NeutralEarth })
}

func sayLinesWeak(s *site, modes []diagram.Mode) said {
	out := s.mayNotWithstand(modes)
	out.remedy = "see what its data sheet states for temporary overvoltages; else use one with a higher " + s.rating()
	out.why += "; for longer or higher overvoltages the standard lets it fail, if it fails safely"
	return out
}

// neutralWeak finds a varistor between neutral and earth of a TT system.
func (s *site) neutralWeak() bool {
	return slices.Contains(s.weak(), diagram.NeutralEarth)
}

func sayNeutralWeak(s *site) said {
	out := s.mayNotWithstand([]diagram.Mode{diagram.NeutralEarth})
	out.remedy = "see what its data sheet states for temporary overvoltages; a spark gap or gas tube between neutral and earth withstands it"
	return out
}

// gapMissing finds such a varistor where it is all that leads to earth: a gap
// belongs in its place.
func (s *site) gapMissing() bool {
	return s.neutralWeak() && !s.connects(diagram.LineEarth)
}

func sayGapMissing(s *site) said {
	out := s.mayNotWithstand([]diagram.Mode{diagram.NeutralEarth})
	out.severity = analysis.Warning
	out.what = "has a varistor without a gap between neutral and earth, and the system is TT"
	out.why += ", and it has to"
	out.remedy = "use one with a spark gap or gas tube between neutral and earth; if it has one, say so here"
	out.source = overvoltageSource + "; " + connectionTypes
	return out
}

// mayNotWithstand is what is said of all modes that are weak in a fault.
func (s *site) mayNotWithstand(modes []diagram.Mode) said {
	worst := overvoltages(s.system, modes[0])[0]
	var steps analysis.Working
	for _, mode := range modes {
		steps = append(steps, s.bearsStep(mode))
		for _, over := range overvoltages(s.system, mode) {
			steps = append(steps, over.step(mode))
		}
	}
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "may not withstand a network fault in " + listed(modes),
		why: worst.cause + " puts " + volts(math.Round(worst.volts)) + " there for " + analysis.FigureIn(worst.seconds, "s") +
			", which is more than its " + s.rating() + " suggests it can withstand",
		source:  overvoltageSource,
		working: steps,
	}
}

func (o overvoltage) step(mode diagram.Mode) analysis.Step {
	return analysis.Step{
		Label: o.cause + ", for " + analysis.FigureIn(o.seconds, "s") + ", " + mode.String(), Formula: o.formula,
		Result: o.volts, Unit: "V", Source: overvoltageSource,
	}
}
