package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// bears returns the voltage that a mode of a protector stands for ever, V rms,
// and whether its nameplate states it. Where it does not, it is that of the
// system which the protector is made for, with the tolerance of
// analysis.SameVoltage; 0 where that tells nothing.
func bears(p diagram.Protector, mode diagram.Mode) (volts float64, stated bool) {
	if mcov := p.Modes[mode].MCOV; mcov > 0 {
		return mcov, true
	}
	if !p.System.Known() || mode == diagram.NeutralEarth {
		return 0, false
	}
	return p.System.ModeVoltage(mode) * (1 + analysis.VoltageTolerance), false
}

// modes returns the modes that the protector has and for which the bus has the
// conductors.
func (s *site) modes() []diagram.Mode {
	var out []diagram.Mode
	for _, mode := range diagram.Modes() {
		if s.protector.Modes[mode].Connected && s.has(mode) {
			out = append(out, mode)
		}
	}
	return out
}

// modesWhere returns those of them of which something holds.
func (s *site) modesWhere(holds func(diagram.Mode) bool) []diagram.Mode {
	return slices.DeleteFunc(s.modes(), func(mode diagram.Mode) bool { return !holds(mode) })
}

// has reports whether the bus has the conductors of the mode. In TN-C neutral
// and earth are one.
func (s *site) has(mode diagram.Mode) bool {
	if mode == diagram.NeutralEarth && s.system.Earthing == diagram.TNC {
		return false
	}
	return s.system.HasMode(mode)
}

// free reports whether nothing holds the lines of the bus near earth, so that
// in a fault one can have the voltage between lines to it, for as long as the
// fault lasts. An earthing that is not known is taken for such a one.
func (s *site) free() bool {
	return !s.system.Earthing.HoldsNeutral() || s.system.Wiring == diagram.Delta
}

// below reports whether the protector bears less in a mode than what stands
// there for ever. It is false where the nameplate tells nothing.
func (s *site) below(mode diagram.Mode) bool {
	volts, _ := bears(s.protector, mode)
	return volts > 0 && volts < s.across(mode)
}

// across returns the highest voltage that stands across a mode for ever, V rms:
// at a load for 120 V of a high-leg delta that of the ordinary lines, since it is
// not connected to the third.
func (s *site) across(mode diagram.Mode) float64 {
	if s.ordinaryLine() && (mode == diagram.LineNeutral || mode == diagram.LineEarth && !s.free()) {
		return s.system.LineToNeutral()
	}
	return s.system.ModeVoltage(mode)
}

// ordinaryLine reports whether the place is a load between the neutral and one
// of the ordinary lines of a high-leg delta, as its voltage tells.
func (s *site) ordinaryLine() bool {
	return s.system.Wiring == diagram.HighLeg && s.connectedTo() == diagram.ToNeutral && sameAs(s.part.Load.Voltage, s.system.LineToNeutral())
}

// margin is what a comparison of computed voltages leaves for rounding, V.
const margin = 1e-6

// rating is the short name of what the nameplate calls a continuous voltage.
func (s *site) rating() string { return ratingName(s.protector) }

func ratingName(p diagram.Protector) string {
	if isIEC(p.Type) || p.Type == "" && p.Rating == diagram.Up {
		return "Uc"
	}
	return "MCOV"
}

// levelName is the short name of what the nameplate calls a level.
func levelName(p diagram.Protector) string {
	if p.Rating == diagram.Up {
		return "Up"
	}
	return "VPR"
}

// isIEC reports whether a type is a class of IEC 61643-11.
func isIEC(t diagram.Type) bool {
	return t == diagram.ClassI || t == diagram.ClassII || t == diagram.ClassIII
}

// forPointOfUse reports whether a type is one for the point of use.
func forPointOfUse(t diagram.Type) bool { return t == diagram.Type3 || t == diagram.ClassIII }

// listed writes modes as a sentence does: "L-N, L-G and L-L".
func listed(modes []diagram.Mode) string {
	names := make([]string, len(modes))
	for i, mode := range modes {
		names[i] = mode.String()
	}
	return unit.List(names, "and")
}

// volts writes a voltage: "480 V".
func volts(v float64) string { return analysis.FigureIn(v, "V") }
