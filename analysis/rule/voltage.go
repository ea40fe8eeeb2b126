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
// levels that are those of another system.
func voltageRules(s *site) []analysis.Finding {
	made, bus := s.nominal()
	switch {
	case !s.system.Known():
		return nil
	case s.aboveItsKind():
		return []analysis.Finding{s.highVoltage()}
	case !s.otherVoltage():
		return s.lateLevels()
	case len(s.burning()) > 0:
		return s.ratedTooLow(made, bus)
	case len(s.under()) > 0:
		return nil // the rules on earthing and on the high leg tell what it does not stand
	case made < bus:
		return s.onlyTheMarking(s.otherSystem(made, bus))
	}
	return s.ratedTooHigh(made, bus)
}

// aboveItsKind reports whether the bus has more than protectors of UL 1449 and
// IEC 61643-11 are made for. One of no stated type that names such a system may
// be an arrester for it.
func (s *site) aboveItsKind() bool {
	arrester := s.protector.Type == "" && s.protector.System.Voltage > lowVoltage
	return s.system.Voltage > lowVoltage && !arrester
}

func (s *site) highVoltage() analysis.Finding {
	f := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectVoltage,
		What:    s.on() + " is a protector for low voltage, and the bus has " + s.system.String(),
		Why:     "whatever its ratings say, a protector of this kind is neither tested nor insulated for more than " + volts(lowVoltage) + ": it can burst",
		Remedy:  "keep it switched off; have a qualified person take it off the bus, and put a surge arrester made for this voltage in its place",
		Source:  s.nfpaOn(unsuited) + "; UL 1449: up to " + volts(lowVoltage) + " (from memory)",
		Working: analysis.Working{{Label: "at the bus, between lines", Result: s.system.Voltage, Unit: "V", Source: fromSheet}},
	}
	if s.iec {
		f.Source = "IEC 61643-11:2011 clause 1: up to " + volts(lowVoltage) + " AC " + recalled
	}
	return f
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
	made, bus := s.nominal()
	switch {
	case s.aboveItsKind():
		return true
	case !s.otherVoltage():
		return false
	case len(s.under()) > 0:
		return len(s.burning()) > 0
	}
	return made >= muchTooHigh*bus
}

// under returns the modes that bear less than what stands there for ever.
func (s *site) under() []diagram.Mode {
	return slices.DeleteFunc(s.modes(), func(mode diagram.Mode) bool { return !s.below(mode) })
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

// ratedTooLow is the finding on a protector that does not stand the bus. Where
// its nameplate names a higher voltage all the same, it contradicts itself.
func (s *site) ratedTooLow(made, bus float64) []analysis.Finding {
	f, modes := s.otherSystem(made, bus), s.burning()
	f.Severity = analysis.Error
	f.Why = "the voltage across " + listed(modes) + " is above what it is made for: it conducts all the time, overheats and can burn"
	f.Remedy = "keep it switched off; have a qualified person take it off the bus, and put one made for " + s.system.String() + " in its place"
	f.Mend = replaceIt
	if made > bus {
		f.Why = "its " + s.rating() + " in " + listed(modes) + " is below the voltage there: it conducts all the time, overheats and can burn"
		f.Remedy = "keep it switched off; what it states contradicts itself, so read both off the nameplate, and put one made for " + s.system.String() + " in its place"
		f.Mend = analysis.Mend{}
	}
	f.Working = append(f.Working, s.bearing(modes)...)
	return []analysis.Finding{f}
}

func (s *site) ratedTooHigh(made, bus float64) []analysis.Finding {
	f := s.otherSystem(made, bus)
	late, steps := s.late(1)
	if made < muchTooHigh*bus && len(late) == 0 {
		return s.onlyTheMarking(f)
	}
	f.Severity = analysis.Warning
	if made >= muchTooHigh*bus {
		f.Severity = analysis.Error
	}
	f.Why = "it withstands the bus voltage, but clamps higher than one made for it"
	f.Remedy = "put one made for " + s.system.String() + " in its place"
	f.Mend = replaceIt
	f.Working = append(f.Working, steps...)
	return []analysis.Finding{f}
}

// onlyTheMarking is the finding on a protector that stands the bus and protects
// it, but is made for another system. Where it lacks a line besides, that is
// what has to be told.
func (s *site) onlyTheMarking(f analysis.Finding) []analysis.Finding {
	if s.lacksLine() {
		return nil
	}
	f.Severity = analysis.Warning
	f.Why = "use a protector only on the systems that its listing and its marking name; its ratings would be enough for this one"
	f.Remedy = "see whether its marking names " + s.system.String() + " as well, and state that system here; else put one made for it in its place"
	return []analysis.Finding{f}
}

// otherSystem is what the findings on another system have in common.
func (s *site) otherSystem(made, bus float64) analysis.Finding {
	own := s.protector.System
	which := "between lines"
	if own.Lines() < 2 || made != own.Voltage {
		which = "to neutral"
	}
	return analysis.Finding{
		Subject: analysis.SubjectVoltage,
		What:    fmt.Sprintf("%s is made for %s, and the bus has %s", s.on(), own, s.system),
		Source:  s.markingSource(),
		Working: analysis.Working{
			{Label: "made for, " + which, Result: made, Unit: "V", Source: fromSheet},
			{Label: "at the bus, " + which, Result: bus, Unit: "V", Source: fromSheet},
		},
	}
}

// markingSource names the rule that a protector is made for its system.
func (s *site) markingSource() string {
	if s.iec {
		return ucSource(s.codes.Uc)
	}
	return s.nfpaOn(unsuited) + "; " + s.nfpa("110.3(B)")
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

// lateLevels is the finding on levels far above those usual for the system,
// where the protector is not made for another one.
func (s *site) lateLevels() []analysis.Finding {
	modes, steps := s.late(muchLater)
	if len(modes) == 0 {
		return nil
	}
	f := analysis.Finding{
		Severity: analysis.Warning, Subject: analysis.SubjectVoltage,
		What:    s.on() + " has levels in " + listed(modes) + " far above those usual for " + s.system.String(),
		Why:     "it clamps higher than a protector made for this system",
		Remedy:  "see whether the levels are those of its nameplate; else put one made for " + s.system.String() + " in its place",
		Source:  commonPractice,
		Working: steps,
	}
	if s.protector.Rating == diagram.Up {
		f.What = s.on() + " has levels in " + listed(modes) + " above what equipment on " + s.system.String() + " has to withstand"
		f.Source = levelOfProtector
	}
	return []analysis.Finding{f}
}

// fixedEquipment is the overvoltage category that fixed equipment has at least.
const fixedEquipment = 2

// late returns the modes in which the level is more than so many times the
// usual one, with the working. A level Up is compared with the rated impulse
// voltage of fixed equipment instead, which it may reach.
func (s *site) late(times float64) ([]diagram.Mode, analysis.Working) {
	usual := analysis.TypicalProtector(s.system)
	var modes []diagram.Mode
	var steps analysis.Working
	for _, mode := range s.modes() {
		level, most := s.protector.Modes[mode].Level, times*usual.Modes[mode].Level
		step := analysis.Step{
			Label: "usual VPR " + mode.String() + " for " + s.system.String(), Result: usual.Modes[mode].Level, Unit: "V", Source: commonPractice,
		}
		switch {
		case s.protector.Rating == diagram.Up:
			most = analysis.ImpulseVoltage(s.system.HighestToEarth(), fixedEquipment)
			step = analysis.Step{
				Label: "rated impulse voltage, category II", Result: most, Unit: "V", Source: "IEC 60664-1:2007 table F.1",
			}
		case usual.Rating == diagram.Up:
			continue // a VPR has no usual value where Up is stated
		}
		if most > 0 && level > most+margin {
			modes = append(modes, mode)
			stated := analysis.Step{Label: levelName(s.protector) + " " + mode.String(), Result: level, Unit: "V", Source: fromSheet}
			steps = append(steps, stated, step)
		}
	}
	return modes, steps
}
