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
	annexE    = "IEC 62305-1 annex E, how a flash is shared " + recalled
)

// The least currents of a line at the origin, A: tables 534.4 and 534.5, from memory.
const (
	leastNominal = 5e3    // In
	leastImpulse = 12.5e3 // Iimp, where nothing better is known
)

// leastOfGap returns the least current between neutral and earth, A, by that of a
// line, for a protector that is connected as CT2: from every line to neutral, and by
// one gap from there to earth, which carries their sum. The same tables, from memory.
func leastOfGap(line float64, phases int) float64 {
	if phases == 1 {
		return 2 * line
	}
	return 4 * line
}

// sumToEarth reports whether the protector is connected as CT2: the lines to
// neutral, and from there one gap to earth. The sheet shows that only by the gap.
func sumToEarth(p diagram.Protector) bool {
	gap := p.Modes[diagram.NeutralEarth]
	return p.Modes[diagram.LineNeutral].Connected && gap.Connected && gap.Switching
}

// polesOfTable is how many conductors share the current in the usual table of
// Iimp for each level: three lines and the neutral.
const polesOfTable = 4

// impulseRules are on Iimp, In and Imax at the origin of an installation by the
// rules of IEC.
func impulseRules() []record[*site] {
	return where((*site).atOriginIEC, about(analysis.SubjectDischarge,
		tellsOne("discharge.Iimp", (*site).impulseTooLow, sayImpulseTooLow),
		tellsIf("discharge.In at origin", (*site).nominalTooLow, sayNominalTooLow),
		tellsOne("discharge.Imax", (*site).highestTooLow, sayHighestTooLow),
		tellsOne("discharge.neutral to earth", (*site).gapTooLow, sayGapTooLow),
	)...)
}

// atOriginIEC reports whether the protector is of a class and stands where a
// supply comes in.
func (s *site) atOriginIEC() bool {
	_, ok := s.supply()
	return ok && s.iec && s.atOrigin() && isIEC(s.protector.Type)
}

// exposure returns what comes over the supply.
func (s *site) exposure() diagram.Exposure {
	supply, _ := s.supply()
	return supply.Exposure
}

// impulseTooLow checks Iimp where the building has a lightning protection
// system. That none is stated is told of the nameplate.
func (s *site) impulseTooLow() (analysis.FlashShare, bool) {
	share := analysis.ShareOfFlash(s.exposure(), s.system)
	if share.Pole == 0 || s.protector.Iimp <= 0 {
		return share, false
	}
	return share, s.protector.Iimp < max(share.Pole, leastImpulse)
}

// sayImpulseTooLow is certain where the resistances to earth are known, or where the
// usual table asks for more too: with fewer than four conductors the share of each is
// greater than there.
func sayImpulseTooLow(s *site, share analysis.FlashShare) said {
	least := kiloamperes(max(share.Pole, leastImpulse))
	return said{
		severity: ifCertain(share.Known && s.protector.Iimp < share.Pole || s.protector.Iimp < share.Flash/2/polesOfTable),
		who:      s.on(),
		what:     fmt.Sprintf("has an Iimp of %s, and one pole can carry %s", kiloamperes(s.protector.Iimp), least),
		why:      share.Why(),
		remedy:   "use one with an Iimp of at least " + least + " for each pole; less may do where other services share the current and a study shows it",
		source:   annexE,
		working: analysis.Working{
			{Label: "flash, lightning protection system " + string(s.exposure().Lightning), Result: share.Flash, Unit: "A", Source: "IEC 62305-1 " + recalled},
			{Label: "share of the supply", Text: share.Why(), Result: 100 * share.Supply, Unit: "%", Source: annexE},
			{
				Label: "current of one pole", Formula: "I × share / m", Numbers: fmt.Sprintf("%s × %.3g / %d", amperes(share.Flash), share.Supply, share.Conductors),
				Result: share.Pole, Unit: "A", Source: annexE,
			},
			{Label: "Iimp of " + s.name(), Result: s.protector.Iimp, Unit: "A", Source: fromSheet},
		},
		mend: replaceIt,
	}
}

// nominalTooLow checks In of a line.
func (s *site) nominalTooLow() bool {
	in := s.protector.In
	return s.protector.Type == diagram.ClassII && in > 0 && in < leastNominal && !s.otherCarries(leastNominal)
}

func sayNominalTooLow(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "has an In of " + kiloamperes(s.protector.In) + ", and at the origin at least 5 kA for each line is required",
		why:      "what comes over the supply meets the protector at the origin first",
		remedy:   "use one with an In of at least 5 kA",
		source:   table5344,
		working:  s.currentWorking("In", s.protector.In, leastNominal, table5344),
		mend:     replaceIt,
	}
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

// highestTooLow compares Imax with the guide, which it returns.
func (s *site) highestTooLow() (guide float64, found bool) {
	guide = guideImax(s.exposure().Surges)
	imax := s.protector.Imax
	return guide, s.protector.Type == diagram.ClassII && imax > 0 && imax < guide
}

func sayHighestTooLow(s *site, guide float64) said {
	const source = "guides for installers, by exposure 20, 40 or 65 kA; not a standard"
	imax := s.protector.Imax
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     fmt.Sprintf("has an Imax of %s, and for %s exposure %s is usual", kiloamperes(imax), s.exposure().Surges, kiloamperes(guide)),
		why:      "the more often large surges come, the sooner a small protector wears out",
		remedy:   "consider one with an Imax of " + kiloamperes(guide),
		source:   source,
		working:  s.currentWorking("Imax", imax, guide, source),
	}
}

// gapCurrent is a current that the gap between neutral and earth must carry.
type gapCurrent struct {
	name          string  // In or Iimp
	stated, least float64 // A
	source        string
}

// gapTooLow tells what the gap between neutral and earth must carry, where
// that is more than the one figure on the sheet: it gets the sum of the lines.
func (s *site) gapTooLow() (gapCurrent, bool) {
	p := s.protector
	if !sumToEarth(p) || p.Type == diagram.ClassIII {
		return gapCurrent{}, false
	}
	out := gapCurrent{"In", p.In, leastOfGap(leastNominal, s.system.Phases()), table5344}
	if impulseTested(p) {
		out = gapCurrent{"Iimp", p.Iimp, s.sumOfImpulse(), table5345}
	}
	return out, out.stated > 0 && out.stated < out.least
}

func sayGapTooLow(s *site, c gapCurrent) said {
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("Between neutral and earth %s must carry %s, and an %s of %s is stated", s.on(), kiloamperes(c.least), c.name, kiloamperes(c.stated)),
		why:      "all lines are led to earth through the one gap between neutral and earth",
		remedy:   "see on its nameplate that its gap between neutral and earth carries that",
		source:   c.source,
		working:  s.currentWorking(c.name, c.stated, c.least, c.source),
	}
}

// sumOfImpulse returns the least Iimp between neutral and earth: that of all
// conductors together, at least what the table asks for.
func (s *site) sumOfImpulse() float64 {
	share := analysis.ShareOfFlash(s.exposure(), s.system)
	return max(share.Flash*share.Supply, leastOfGap(leastImpulse, s.system.Phases()))
}
