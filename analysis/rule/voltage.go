package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

const (
	// muchTooHigh is the ratio of the voltage that a protector is made for to that
	// of its bus from which it protects too little to be left there (common
	// practice, no source): the next usual voltage up is at least so much higher.
	muchTooHigh = 1.5
	// muchLater is the ratio of a level to the usual one from which a protector
	// holds markedly less than one made for the system (common practice, no
	// source): the usual ones of one system differ by a quarter at most.
	muchLater = 1.5
)

// voltageRules look at the system that the protector is stated for, and at
// levels that are those of another system. Where it bears too little only for the
// earthing or for the high leg, the rules on these tell.
func voltageRules() []record[*site] {
	return about(analysis.SubjectVoltage,
		tellsIf("voltage.above low voltage", (*site).aboveItsKind, sayHighVoltage),
		tellsOne("voltage.too low", (*site).ratedTooLow, sayTooLow).unless("voltage.above low voltage"),
		tellsOne("voltage.too high", (*site).ratedTooHigh, sayTooHigh).unless("voltage.above low voltage"),
		tellsOne("voltage.marking", (*site).onlyTheMarking, sayMarking).
			unless("voltage.above low voltage", "voltage.too high", "phases.line missing", "phases.one circuit"),
		tellsAll("voltage.levels", (*site).lateLevels, sayLateLevels).unless("voltage.above low voltage"),
	)
}

// aboveItsKind reports whether the bus has more than protectors of UL 1449 and
// IEC 61643-11 are made for. One of no stated type that names such a system may
// be an arrester for it.
func (s *site) aboveItsKind() bool {
	arrester := s.protector.Type == "" && s.protector.System.Voltage > lowVoltage
	return s.system.Voltage > lowVoltage && !arrester
}

func sayHighVoltage(s *site) said {
	bound := "up to " + volts(lowVoltage)
	return said{
		severity: analysis.Error,
		who:      s.on(),
		what:     "is a protector for low voltage, and the bus has " + s.system.String(),
		why:      "whatever its ratings say, a protector of this kind is neither tested nor insulated for more than " + volts(lowVoltage) + ": it can burst",
		remedy:   "keep it switched off; have a qualified person take it off the bus, and put a surge arrester made for this voltage in its place",
		source:   s.byRules("IEC 61643-11:2011 clause 1: "+bound+" AC "+recalled, s.nfpaOn(unsuited)+"; UL 1449: "+bound+" (from memory)"),
		working:  analysis.Working{{Label: "at the bus, between lines", Result: s.system.Voltage, Unit: "V", Source: fromSheet}},
	}
}

// otherVoltage reports whether the protector states a system whose voltage is
// not that of its bus.
func (s *site) otherVoltage() bool {
	return s.protector.System.Known() && !analysis.SameNominal(s.protector.System, s.system)
}

// nominal returns the voltage that the protector is made for and that of its
// bus between the same conductors, V rms. made is 0 where the protector does not
// state a system.
func (s *site) nominal() (made, bus float64) {
	if !s.protector.System.Known() {
		return 0, s.system.Voltage
	}
	return analysis.NominalVoltages(s.protector.System, s.system)
}

// misplaced reports whether the protector is made for another voltage
// altogether, so that nothing else about it matters: much too high, or too low
// for one of its modes.
func (s *site) misplaced() bool {
	m, other := s.mismatch()
	switch {
	case s.aboveItsKind():
		return true
	case !other:
		return false
	case len(s.under()) > 0:
		return len(s.burning()) > 0
	}
	return m.muchTooHigh()
}

// under returns the modes that bear less than what stands there for ever.
func (s *site) under() []diagram.Mode {
	return s.modesWhere(s.below)
}

// burning returns the modes that bear too little, where the rule on the voltage
// tells of them: not where all of them are those of which the rules on earthing
// and on the high leg tell.
func (s *site) burning() []diagram.Mode {
	all := s.under()
	if slices.ContainsFunc(all, func(mode diagram.Mode) bool { return !s.onlyIfHeld(mode) && !s.onlyOrdinaryLines(mode) }) {
		return all
	}
	return nil
}

// mismatch is a protector that is made for another voltage than that of its bus.
type mismatch struct {
	made, bus float64        // V rms between the same conductors
	under     []diagram.Mode // those that bear too little for the bus
	late      []late         // those that hold later than one made for the bus
}

func (m mismatch) muchTooHigh() bool { return m.made >= muchTooHigh*m.bus }

// mismatch returns what is made for another voltage, and whether it is.
func (s *site) mismatch() (mismatch, bool) {
	made, bus := s.nominal()
	return mismatch{made: made, bus: bus}, s.otherVoltage()
}

// ratedTooLow finds a protector that does not stand the bus.
func (s *site) ratedTooLow() (mismatch, bool) {
	m, other := s.mismatch()
	m.under = s.burning()
	return m, other && len(m.under) > 0
}

// sayTooLow tells of a nameplate that names a higher voltage all the same that it
// contradicts itself.
func sayTooLow(s *site, m mismatch) said {
	out := s.otherSystem(m)
	out.severity = analysis.Error
	out.working = append(out.working, s.bearing(m.under)...)
	if m.made > m.bus {
		out.why = "its " + s.rating() + " in " + listed(m.under) + " is below the voltage there: it conducts all the time, overheats and can burn"
		out.remedy = "keep it switched off; what it states contradicts itself, so read both off the nameplate, and put one made for " + s.system.String() + " in its place"
		return out
	}
	out.why = "the voltage across " + listed(m.under) + " is above what it is made for: it conducts all the time, overheats and can burn"
	out.remedy = "keep it switched off; have a qualified person take it off the bus, and put one made for " + s.system.String() + " in its place"
	out.mend = replaceIt
	return out
}

// ratedTooHigh finds a protector for so much that it protects less.
func (s *site) ratedTooHigh() (mismatch, bool) {
	m, other := s.mismatch()
	if !other || len(s.under()) > 0 || m.made < m.bus {
		return m, false
	}
	m.late = s.late(1)
	return m, m.muchTooHigh() || len(m.late) > 0
}

func sayTooHigh(s *site, m mismatch) said {
	out := s.otherSystem(m)
	out.severity = ifCertain(m.muchTooHigh())
	out.why = "it withstands the bus voltage, but clamps higher than one made for it"
	out.remedy = "put one made for " + s.system.String() + " in its place"
	out.working = append(out.working, s.lateSteps(m.late)...)
	out.mend = replaceIt
	return out
}

// onlyTheMarking finds a protector that stands the bus and is made for another
// system.
func (s *site) onlyTheMarking() (mismatch, bool) {
	m, other := s.mismatch()
	return m, other && len(s.under()) == 0
}

func sayMarking(s *site, m mismatch) said {
	out := s.otherSystem(m)
	out.severity = analysis.Warning
	out.why = "use a protector only on the systems that its listing and its marking name; its ratings would be enough for this one"
	out.remedy = "see whether its marking names " + s.system.String() + " as well, and state that system here; else put one made for it in its place"
	return out
}

// otherSystem is what all that is said of another system has in common.
func (s *site) otherSystem(m mismatch) said {
	own := s.protector.System
	which := "between lines"
	if own.Lines() < 2 || m.made != own.Voltage {
		which = "to neutral"
	}
	return said{
		who:    s.on(),
		what:   fmt.Sprintf("is made for %s, and the bus has %s", own, s.system),
		source: s.markingSource(),
		working: analysis.Working{
			{Label: "made for, " + which, Result: m.made, Unit: "V", Source: fromSheet},
			{Label: "at the bus, " + which, Result: m.bus, Unit: "V", Source: fromSheet},
		},
	}
}

// markingSource names the rule that a protector is made for its system.
func (s *site) markingSource() string {
	return s.byRules(ucSource(s.codes.Uc), s.nfpaOn(unsuited)+"; "+s.nfpa("110.3(B)"))
}

// bearing sets what stands across each mode beside what the protector bears.
func (s *site) bearing(modes []diagram.Mode) analysis.Working {
	var out analysis.Working
	for _, mode := range modes {
		out = append(out, s.bearsStep(mode), s.standsStep(mode))
	}
	return out
}

func (s *site) bearsStep(mode diagram.Mode) analysis.Step {
	bears, stated := bears(s.protector, mode)
	step := analysis.Step{Label: s.rating() + " " + mode.String(), Result: bears, Unit: "V", Source: fromSheet}
	if !stated {
		step.Label += ", not stated"
		step.Formula = "1.1 U"
		step.Numbers = "1.1 × " + volts(s.protector.System.ModeVoltage(mode))
		step.Source = "that of " + s.protector.System.String() + ", which it is made for, with 10 %; " + commonPractice
	}
	return step
}

func (s *site) standsStep(mode diagram.Mode) analysis.Step {
	return analysis.Step{
		Label: "highest continuous voltage " + mode.String() + " of " + s.system.String(), Result: s.across(mode), Unit: "V", Source: fromSheet,
	}
}

// late is a mode whose level is above what is usual.
type late struct {
	mode  diagram.Mode
	usual float64 // V: the usual VPR, or what fixed equipment has to withstand
}

// lateLevels finds levels far above those usual for the system, where the
// protector is not made for another one.
func (s *site) lateLevels() []late {
	if s.otherVoltage() {
		return nil
	}
	return s.late(muchLater)
}

func sayLateLevels(s *site, all []late) said {
	modes := make([]diagram.Mode, len(all))
	for i, l := range all {
		modes[i] = l.mode
	}
	above, source := " far above those usual for "+s.system.String(), commonPractice
	if s.protector.Rating == diagram.Up {
		above, source = " above what equipment on "+s.system.String()+" has to withstand", levelOfProtector
	}
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "has levels in " + listed(modes) + above,
		why:      "it clamps higher than a protector made for this system",
		remedy:   "see whether the levels are those of its nameplate; else put one made for " + s.system.String() + " in its place",
		source:   source,
		working:  s.lateSteps(all),
	}
}

// fixedEquipment is the overvoltage category that fixed equipment has at least.
const fixedEquipment = 2

// late returns the modes in which the level is more than so many times the
// usual one. A level Up is compared with the rated impulse voltage of fixed
// equipment instead, which it may reach.
func (s *site) late(times float64) []late {
	usual := analysis.TypicalProtector(s.system)
	var out []late
	for _, mode := range s.modes() {
		l := late{mode, usual.Modes[mode].Level}
		most := times * l.usual
		switch {
		case s.protector.Rating == diagram.Up:
			l.usual = analysis.ImpulseVoltage(s.system.HighestToEarth(), fixedEquipment)
			most = l.usual
		case usual.Rating == diagram.Up:
			continue // a VPR has no usual value where Up is stated
		}
		if most > 0 && s.protector.Modes[mode].Level > most+margin {
			out = append(out, l)
		}
	}
	return out
}

// lateSteps sets each level beside what it is compared with.
func (s *site) lateSteps(all []late) analysis.Working {
	var out analysis.Working
	for _, l := range all {
		step := analysis.Step{
			Label: "usual VPR " + l.mode.String() + " for " + s.system.String(), Result: l.usual, Unit: "V", Source: commonPractice,
		}
		if s.protector.Rating == diagram.Up {
			step.Label, step.Source = "rated impulse voltage, category II", "IEC 60664-1:2007 table F.1"
		}
		level := s.protector.Modes[l.mode].Level
		out = append(out, analysis.Step{Label: levelName(s.protector) + " " + l.mode.String(), Result: level, Unit: "V", Source: fromSheet}, step)
	}
	return out
}
