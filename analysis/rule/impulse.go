package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// Where IEC lists the least discharge currents, and how a flash is shared.
const (
	table5344 = "IEC 60364-5-53:2001 with amendment 2:2015, table 534.4 (534.3 of HD 60364-5-534:2016) " + recalled
	table5345 = "IEC 60364-5-53:2001 with amendment 2:2015, table 534.5 (534.4 of HD 60364-5-534:2016) " + recalled
	annexE    = "IEC 62305-1 annex E, half of the flash into the earth and half into the supply " + recalled
)

// leastCurrents are the least currents of a protector at the origin, A: of each
// line, and between neutral and earth.
type leastCurrents struct{ line, neutralEarth float64 }

// leastNominal returns the least In by connection and phases: CT1 has a
// protector from every conductor to earth, CT2 from every line to neutral and
// one from there to earth, which carries their sum. IEC 60364-5-53:2001 with amendment 2:2015, table
// 534.4, from memory.
func leastNominal(sum bool, phases int) leastCurrents {
	switch {
	case !sum:
		return leastCurrents{5e3, 5e3}
	case phases == 1:
		return leastCurrents{5e3, 10e3}
	}
	return leastCurrents{5e3, 20e3}
}

// leastImpulse returns the least Iimp where nothing better is known, as
// leastNominal. IEC 60364-5-53:2001 with amendment 2:2015, table 534.5, from memory.
func leastImpulse(sum bool, phases int) leastCurrents {
	switch {
	case !sum:
		return leastCurrents{12.5e3, 12.5e3}
	case phases == 1:
		return leastCurrents{12.5e3, 25e3}
	}
	return leastCurrents{12.5e3, 50e3}
}

// sumToEarth reports whether the protector is connected as CT2: the lines to
// neutral, and from there one gap to earth. The sheet shows that only by the gap.
func sumToEarth(p diagram.Protector) bool {
	gap := p.Modes[diagram.NeutralEarth]
	return p.Modes[diagram.LineNeutral].Connected && gap.Connected && gap.Switching
}

// flashCurrent returns the crest of the flash that a lightning protection level
// goes by, A: IEC 62305-1. A level that is not known has the lowest, since no
// level asks for less.
func flashCurrent(level diagram.LightningSystem) float64 {
	switch level {
	case diagram.LightningI:
		return 200e3
	case diagram.LightningII:
		return 150e3
	case diagram.LightningIII, diagram.LightningIV, diagram.LightningUnknown:
		return 100e3
	}
	return 0
}

// polesOfTable is how many conductors share the current in the usual table of
// Iimp for each level: three lines and the neutral.
const polesOfTable = 4

// shareOfPole returns the current of one conductor, A, where half of the flash
// leaves by the one supply and its conductors share it alike.
func shareOfPole(flash float64, conductors int) float64 { return flash / 2 / float64(conductors) }

// dischargeIEC checks Iimp, In and Imax at the origin of an installation.
func (s *site) dischargeIEC() []analysis.Finding {
	supply, ok := s.supply()
	if !ok || !s.atOrigin() || !isIEC(s.protector.Type) {
		return nil
	}
	out := append(s.impulseCurrent(supply.Exposure.Lightning), s.nominalCurrent()...)
	out = append(out, s.highestCurrent(supply.Exposure.Surges)...)
	return append(out, s.neutralToEarth(supply.Exposure.Lightning)...)
}

// conductors returns how many conductors of the supply carry current: the lines
// and the neutral.
func (s *site) conductors() int { return conductorsOf(s.system) }

func conductorsOf(system diagram.System) int {
	n := system.Lines()
	if n > 0 && system.Neutral {
		n++
	}
	return n
}

// impulseCurrent checks Iimp where the building has a lightning protection
// system. That none is stated is told of the nameplate.
func (s *site) impulseCurrent(level diagram.LightningSystem) []analysis.Finding {
	flash, n := flashCurrent(level), s.conductors()
	if flash == 0 || n == 0 || s.protector.Iimp <= 0 {
		return nil
	}
	least := max(shareOfPole(flash, n), leastImpulse(sumToEarth(s.protector), s.system.Phases()).line)
	if s.protector.Iimp >= least {
		return nil
	}
	return s.impulseTooLow(level, flash, n)
}

// impulseTooLow is certain where the usual table asks for more too: with fewer
// than four conductors the share of each is greater than there.
func (s *site) impulseTooLow(level diagram.LightningSystem, flash float64, n int) []analysis.Finding {
	least, severity := shareOfPole(flash, n), analysis.Warning
	if s.protector.Iimp < shareOfPole(flash, polesOfTable) {
		severity = analysis.Error
	}
	out := dischargeFinding(severity,
		fmt.Sprintf("%s has an Iimp of %s, and one pole can carry %s", s.on(), kiloamperes(s.protector.Iimp), kiloamperes(least)),
		"half of a flash to the lightning protection system goes into the earth, the other half out through the conductors of the supply",
		fmt.Sprintf("use one with an Iimp of at least %s for each pole; less may do where other services share the current and a study shows it", kiloamperes(least)),
		annexE)
	out[0].Working = analysis.Working{
		{Label: "flash, lightning protection system " + string(level), Result: flash, Unit: "A", Source: "IEC 62305-1 " + recalled},
		{
			Label: "current of one pole", Formula: "I / 2 / m", Numbers: fmt.Sprintf("%s / 2 / %d", amperes(flash), n),
			Result: least, Unit: "A", Source: annexE,
		},
		{Label: "Iimp of " + s.name(), Result: s.protector.Iimp, Unit: "A", Source: fromSheet},
	}
	return out
}

// nominalCurrent checks In of a line.
func (s *site) nominalCurrent() []analysis.Finding {
	least := leastNominal(sumToEarth(s.protector), s.system.Phases()).line
	if in := s.protector.In; s.protector.Type != diagram.ClassII || in <= 0 || in >= least || s.otherCarries(least) {
		return nil
	}
	out := dischargeFinding(analysis.Warning,
		fmt.Sprintf("%s has an In of %s, and at the origin at least 5 kA for each line is required", s.on(), kiloamperes(s.protector.In)),
		"what comes over the supply meets the protector at the origin first",
		"use one with an In of at least 5 kA",
		table5344)
	out[0].Working = s.currentWorking("In", s.protector.In, least, table5344)
	return out
}

// guideImax returns the Imax that installation guides give by exposure, A, or 0.
func guideImax(exposure diagram.SurgeExposure) float64 {
	switch exposure {
	case diagram.LowExposure:
		return 20e3
	case diagram.MediumExposure:
		return 40e3
	case diagram.HighExposure:
		return 65e3
	}
	return 0
}

// highestCurrent compares Imax with the guide.
func (s *site) highestCurrent(exposure diagram.SurgeExposure) []analysis.Finding {
	guide, imax := guideImax(exposure), s.protector.Imax
	if s.protector.Type != diagram.ClassII || imax <= 0 || imax >= guide {
		return nil
	}
	const source = "guides for installers, by exposure 20, 40 or 65 kA; not a standard"
	out := dischargeFinding(analysis.Remark,
		fmt.Sprintf("%s has an Imax of %s, and for %s exposure %s is usual", s.on(), kiloamperes(imax), exposure, kiloamperes(guide)),
		"the more often large surges come, the sooner a small protector wears out",
		fmt.Sprintf("consider one with an Imax of %s", kiloamperes(guide)),
		source)
	out[0].Working = s.currentWorking("Imax", imax, guide, source)
	return out
}

// neutralToEarth tells what the gap between neutral and earth must carry, where
// that is more than the one figure on the sheet: it gets the sum of the lines.
func (s *site) neutralToEarth(level diagram.LightningSystem) []analysis.Finding {
	p := s.protector
	if !sumToEarth(p) || p.Type == diagram.ClassIII {
		return nil
	}
	name, stated, least, source := "In", p.In, leastNominal(true, s.system.Phases()).neutralEarth, table5344
	if impulseTested(p) {
		name, stated, least, source = "Iimp", p.Iimp, s.sumOfImpulse(level), table5345
	}
	if stated <= 0 || stated >= least {
		return nil
	}
	out := dischargeFinding(analysis.Remark,
		fmt.Sprintf("Between neutral and earth %s must carry %s, and an %s of %s is stated", s.on(), kiloamperes(least), name, kiloamperes(stated)),
		"all lines are led to earth through the one gap between neutral and earth",
		"see on its nameplate that its gap between neutral and earth carries that",
		source)
	out[0].Working = s.currentWorking(name, stated, least, source)
	return out
}

// sumOfImpulse returns the least Iimp between neutral and earth: that of all
// conductors together, at least what the table asks for.
func (s *site) sumOfImpulse(level diagram.LightningSystem) float64 {
	return max(flashCurrent(level)/2, leastImpulse(true, s.system.Phases()).neutralEarth)
}
