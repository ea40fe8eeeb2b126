package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// residualAhead finds a residual-current device between the supply and a protector
// of class I or II: the current that the protector leads to earth flows through it.
// The sheet does not say of what type it is. IEC 60364-5-53 clause 534.4.7, from
// memory.
func (s *site) residualAhead() (diagram.Feeder, bool) {
	if kind := s.protector.Type; !s.iec || kind != diagram.ClassI && kind != diagram.ClassII {
		return diagram.Feeder{}, false
	}
	for _, node := range slices.Backward(s.way()) {
		if feeder, ok := s.Document.Feeder(node.Feeder); ok && feeder.Switch.Residual && node.At != node.Zone {
			return feeder, true
		}
	}
	return diagram.Feeder{}, false
}

func sayResidualAhead(s *site, nearest diagram.Feeder) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "stands behind the residual-current device of " + s.Document.NameOf(nearest.ID),
		why:      "a surge that the protector leads to earth flows through that device and can trip or damage it",
		remedy:   "check that it withstands surge currents of at least 3 kA 8/20, as type S devices do, or connect the protector ahead of it",
		source:   residualDevices,
	}
}

// impulseTested reports whether a protector is tested with Iimp: it is of class
// I, or states an Iimp beside its class.
func impulseTested(p diagram.Protector) bool { return p.Type == diagram.ClassI || p.Iimp > 0 }

// untestedAtOrigin reports whether the protector stands at the origin with class II
// alone.
func (s *site) untestedAtOrigin() bool {
	p := s.protector
	return s.iec && p.Type == diagram.ClassII && !impulseTested(p) && s.atOrigin() && !s.protectorOnWay(impulseTested)
}

// classOneWanted finds class II where the current of a flash to the building comes.
func (s *site) classOneWanted() bool {
	return s.untestedAtOrigin() && s.exposure().Lightning.Present()
}

func sayClassOneWanted(s *site) said {
	return said{
		severity: analysis.Error,
		who:      s.on(),
		what:     "is class II at the origin of a building with a lightning protection system",
		why:      "a flash to the building drives part of its current out through the supply; only class I is tested with such a wave",
		remedy:   "use a class I, or class I and II, protector here",
		source:   classes,
		mend:     replaceIt,
	}
}

// classOneBetter finds class II where the current of a flash to the line can come.
func (s *site) classOneBetter() bool {
	return s.untestedAtOrigin() && s.exposure().LowOverhead > 0
}

func sayClassOneBetter(s *site) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "is class II at the origin of a building that an overhead low-voltage line feeds",
		why:      "a flash to the line can drive more through it than class II is tested with",
		remedy:   "consider a class I protector here if strikes to the line are likely",
		source:   classes,
	}
}

// classThreeAlone finds a protector of class III without one upstream that takes
// the main part of the surge.
func (s *site) classThreeAlone() bool {
	return s.iec && s.protector.Type == diagram.ClassIII && !s.protectorOnWay(func(p diagram.Protector) bool { return !forPointOfUse(p.Type) })
}

func sayClassThreeAlone(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "is class III, and no class I or II protector stands upstream of it",
		why:      "class III is tested with a combination wave only and takes what one upstream leaves",
		remedy:   "place a class II protector at the board that feeds it",
		source:   classes,
	}
}
