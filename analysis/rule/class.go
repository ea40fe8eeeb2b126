package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// classPlace compares a class of IEC 61643-11 with its place.
func (s *site) classPlace() []analysis.Finding {
	switch s.protector.Type {
	case diagram.ClassI:
		return s.residualAhead()
	case diagram.ClassII:
		return append(s.classOneWanted(), s.residualAhead()...)
	case diagram.ClassIII:
		return s.classThreeAlone()
	}
	return nil
}

// residualAhead is the remark on a residual-current device between the supply and
// a protector: the current that the protector leads to earth flows through it. The
// sheet does not say of what type it is. IEC 60364-5-53 clause 534.4.7, from memory.
func (s *site) residualAhead() []analysis.Finding {
	feeder, ok := s.residualFeeder()
	if !ok {
		return nil
	}
	return placeFinding(analysis.Remark,
		fmt.Sprintf("%s stands behind the residual-current device of %s", s.on(), s.Document.NameOf(feeder.ID)),
		"a surge that the protector leads to earth flows through that device and can trip or damage it",
		"check that it withstands surge currents of at least 3 kA 8/20, as type S devices do, or connect the protector ahead of it",
		residualDevices)
}

// residualFeeder returns the nearest feeder on the way whose switch is a
// residual-current device, and whether there is one.
func (s *site) residualFeeder() (diagram.Feeder, bool) {
	for _, node := range slices.Backward(s.way()) {
		if feeder, ok := s.Document.Feeder(node.Feeder); ok && feeder.Switch.Residual && node.At != node.Zone {
			return feeder, true
		}
	}
	return diagram.Feeder{}, false
}

// impulseTested reports whether a protector is tested with Iimp: it is of class
// I, or states an Iimp beside its class.
func impulseTested(p diagram.Protector) bool { return p.Type == diagram.ClassI || p.Iimp > 0 }

// classOneWanted reports a protector of class II at an origin where currents of
// direct flashes can come.
func (s *site) classOneWanted() []analysis.Finding {
	supply, ok := s.supply()
	if !ok || !s.atOrigin() || impulseTested(s.protector) || s.protectorOnWay(impulseTested) {
		return nil
	}
	switch exposure := supply.Exposure; {
	case exposure.Lightning.Present():
		return placeFinding(analysis.Error,
			fmt.Sprintf("%s is class II at the origin of a building with a lightning protection system", s.on()),
			"a flash to the building drives part of its current out through the supply; only class I is tested with such a wave",
			"use a class I, or class I and II, protector here",
			classes)
	case exposure.LowOverhead > 0:
		return placeFinding(analysis.Remark,
			fmt.Sprintf("%s is class II at the origin of a building that an overhead low-voltage line feeds", s.on()),
			"a flash to the line can drive more through it than class II is tested with",
			"consider a class I protector here if strikes to the line are likely",
			classes)
	}
	return nil
}

// classThreeAlone reports a protector of class III without one upstream that
// takes the main part of the surge.
func (s *site) classThreeAlone() []analysis.Finding {
	if s.protectorOnWay(func(p diagram.Protector) bool {
		return p.Type != diagram.ClassIII && p.Type != diagram.Type3
	}) {
		return nil
	}
	return placeFinding(analysis.Warning,
		fmt.Sprintf("%s is class III, and no class I or II protector stands upstream of it", s.on()),
		"class III is tested with a combination wave only and takes what one upstream leaves",
		"place a class II protector at the board that feeds it",
		classes)
}
