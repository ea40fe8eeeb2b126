package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// earthingRules look at what the earthing of the bus asks of a protector: what
// stands to earth in a fault, how it is connected to earth, and which modes have
// nothing to do there.
func earthingRules(s *site) []analysis.Finding {
	if !s.system.Known() || s.misplaced() {
		return nil
	}
	var out []analysis.Finding
	switch {
	case s.onlyIfHeld(diagram.LineEarth):
		out = append(out, s.asksForLineVoltage())
	case s.otherVoltage(): // which is told, and the marking with it
	case s.listedForHeld():
		out = append(out, s.notListed())
	case s.listedForOther():
		out = append(out, s.otherListing())
	}
	if s.iec {
		out = append(out, s.connection()...)
	}
	return append(out, s.idleEarthMode()...)
}

// onlyIfHeld reports whether the protector would bear what stands from line to
// earth if the earthing held the neutral, and does not bear what can stand
// there as it is. Other modes don't depend on the earthing.
func (s *site) onlyIfHeld(mode diagram.Mode) bool {
	volts, _ := bears(s.protector, mode)
	return mode == diagram.LineEarth && s.free() && s.connects(mode) && s.below(mode) && volts >= s.system.HighestToNeutral()
}

// proven returns the system of a node. An earthing that is not stated is the one
// that a bond of neutral and earth proves, at the board itself or at one above in
// its transformer zone.
func (s *sheet) proven(node *analysis.Node) diagram.System {
	system := node.System
	if system.Earthing != "" || !system.Neutral {
		return system
	}
	for at := node; at != nil; at = at.Up {
		switch part, _ := s.Document.Part(at.At.Part); {
		case part.Kind.IsBoard() && part.Board.Bonded && s.iec:
			system.Earthing = diagram.TNCS
			return system
		case part.Kind.IsBoard() && part.Board.Bonded:
			system.Earthing = diagram.Solid
			return system
		case at.At == at.Zone:
			return system
		}
	}
	return system
}

func (s *site) connects(mode diagram.Mode) bool { return s.protector.Modes[mode].Connected }

// asksForLineVoltage is the finding on a protector for a held neutral where
// nothing holds it.
func (s *site) asksForLineVoltage() analysis.Finding {
	line := volts(s.system.HighestToEarth())
	f := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectEarthing,
		What:    s.tooLowFor(diagram.LineEarth),
		Why:     "when one line touches earth the others have " + line + " to it, and no breaker opens: the protector conducts, overheats and can burn",
		Remedy:  "keep it switched off until one with at least " + line + " L-G" + s.madeForIt() + " is in its place",
		Source:  s.earthingSource(),
		Working: s.bearing([]diagram.Mode{diagram.LineEarth}),
		Mend:    replaceIt,
	}
	if s.system.Earthing == diagram.Corner {
		f.Why = "one line is earthed here, and the others always have " + line + " to it: the protector conducts, overheats and can burn"
	}
	if s.system.Earthing == "" {
		f.Severity = analysis.Warning
		f.What = "The earthing at " + s.place.name() + " is not stated, and " + s.name() + " is rated only for a solidly earthed neutral"
		f.Why = "without it the system is taken as unearthed: a line can then have " + line + " to earth"
		f.Remedy = "state the earthing at the source; where it is not solid, use a protector with at least " + line + " L-G"
		f.Mend = analysis.Mend{}
	}
	return f
}

// tooLowFor says that a mode of the protector is not rated for the system.
func (s *site) tooLowFor(mode diagram.Mode) string {
	if _, stated := bears(s.protector, mode); !stated {
		return s.on() + " is not rated for " + systemWords(s.system)
	}
	return s.on() + ": " + s.rating() + " too low for " + systemWords(s.system)
}

// madeForIt says what the code of North America asks for besides the rating.
func (s *site) madeForIt() string {
	if s.iec {
		return ""
	}
	return ", listed for this earthing,"
}

func (s *site) earthingSource() string {
	if s.iec {
		return ucSource(s.codes.Uc)
	}
	return s.nfpaOn(unsuited)
}

// listedForHeld reports whether the protector is made for an earthing that
// holds the neutral, on a bus that is known not to be earthed so, where North
// America asks for a listing.
func (s *site) listedForHeld() bool {
	own := s.protector.System
	stated := own.Known() && own.Earthing.HoldsNeutral() && own.Wiring != diagram.Delta
	return !s.iec && s.system.Earthing != "" && s.free() && stated
}

func (s *site) notListed() analysis.Finding {
	return analysis.Finding{
		Severity: analysis.Warning, Subject: analysis.SubjectEarthing,
		What:   s.on() + " is made for " + s.protector.System.String() + " with an earthed neutral, and the bus has " + s.system.String(),
		Why:    "on an ungrounded, impedance-grounded or corner-grounded system use a protector only where it is listed for that earthing, whatever its MCOV",
		Remedy: "see whether its marking names this earthing, and state that system here; else put one listed for it in its place",
		Source: s.nfpaOn(unsuited),
	}
}

// listedForOther reports whether the protector is made for another earthing that
// does not hold the neutral than that of the bus. A delta that is said to be
// earthed solidly tells nothing.
func (s *site) listedForOther() bool {
	own, bus := s.protector.System, s.system.Earthing
	return !s.iec && bus != "" && s.free() && own.Known() && own.Earthing != "" && !own.Earthing.HoldsNeutral() && own.Earthing != bus
}

func (s *site) otherListing() analysis.Finding {
	f := s.notListed()
	f.Severity = analysis.Remark
	f.What = s.on() + " is made for " + s.protector.System.String() + ", and the bus has " + s.system.String()
	f.Why = "its ratings are high enough, but on a system whose neutral is not solidly earthed a protector must be listed for that earthing"
	return f
}

// connection looks at the ways in which IEC connects a protector to earth:
// every line by an element of its own, or every line to the neutral and the
// neutral through one to earth, so that two of them in series span line and
// earth.
func (s *site) connection() []analysis.Finding {
	if s.straightToEarth() {
		return []analysis.Finding{s.directToEarth()}
	}
	if s.reachesEarth() || s.earthElsewhere() || len(s.modes()) == 0 || s.protector.Type == diagram.ClassIII || s.protector.Type == diagram.Type3 {
		return nil
	}
	return []analysis.Finding{{
		Severity: analysis.Warning, Subject: analysis.SubjectEarthing,
		What:   s.on() + " has no path from the lines to earth",
		Why:    "a surge on all conductors at once finds no path through it",
		Remedy: "use one with an element from each line to earth, or one with each line to the neutral and the neutral to earth",
		Source: connectionTypes,
		Mend:   replaceIt,
	}}
}

// straightToEarth reports whether the protector leads from line to earth on a TT
// system with no residual-current device drawn above it.
func (s *site) straightToEarth() bool {
	return s.system.Earthing == diagram.TT && s.connects(diagram.LineEarth) && !s.residualAbove()
}

// reachesEarth reports whether the protector has a way from the lines to earth:
// directly, through the neutral, or by the bond of neutral and earth.
func (s *site) reachesEarth() bool {
	if s.connects(diagram.LineEarth) {
		return true
	}
	throughNeutral := s.connects(diagram.LineNeutral) && s.system.HasMode(diagram.LineNeutral)
	return throughNeutral && (s.connects(diagram.NeutralEarth) || s.bonded())
}

// bonded reports whether neutral and earth are one at the bus.
func (s *site) bonded() bool { return s.part.Board.Bonded || s.system.Earthing == diagram.TNC }

// earthElsewhere reports whether another protector on the bus leads to earth.
func (s *site) earthElsewhere() bool {
	return slices.ContainsFunc(s.protectors, func(p diagram.Protector) bool {
		other := site{place: s.place, protector: p}
		return p.ID != s.protector.ID && other.reachesEarth()
	})
}

// residualAbove reports whether a residual-current device stands between the
// bus and the head of its zone.
func (s *site) residualAbove() bool {
	return slices.ContainsFunc(s.way(), func(node *analysis.Node) bool {
		feeder, ok := s.Document.Feeder(node.Feeder)
		return ok && feeder.Switch.Residual
	})
}

func (s *site) directToEarth() analysis.Finding {
	return analysis.Finding{
		Severity: analysis.Warning, Subject: analysis.SubjectEarthing,
		What: s.on() + " connects the lines straight to earth on a TT system, with no residual-current device drawn ahead of it",
		Why: "if it fails, too little current flows through the earth electrode to open a breaker, and everything earthed becomes live; " +
			"a gap between neutral and earth prevents that",
		Remedy: "use one with each line to the neutral and a spark gap or gas tube from there to earth, and leave its mode L-G out here; " +
			"or, if a residual-current device is ahead of it or is the main switch there, choose the breaker or switch at the source end of the feeder to it and tick \"Residual-current device\" there",
		Source: connectionTypes,
		Mend:   replaceIt,
	}
}

// idleEarthMode is the remark on a mode between neutral and earth where the two
// are one.
func (s *site) idleEarthMode() []analysis.Finding {
	if !s.connects(diagram.NeutralEarth) || !s.bonded() {
		return nil
	}
	f := analysis.Finding{
		Severity: analysis.Remark, Subject: analysis.SubjectEarthing,
		What:   "Mode N-G of " + s.on() + " does nothing: neutral and earth are bonded there",
		Why:    "there is no voltage between them at the bond; L-N and L-G are the same there",
		Remedy: "nothing need change; one without the mode does as well here",
		Source: commonPractice,
	}
	if s.system.Earthing == diagram.TNC {
		f.Severity = analysis.Warning
		f.What = "Mode N-G of " + s.on() + " cannot be connected: neutral and earth are one conductor there"
		f.Why = "a TN-C system has a PEN conductor only"
		f.Remedy = "connect its neutral and its earth to the PEN conductor, or use one with the lines to PEN alone"
		f.Source = connectionTypes
	}
	return []analysis.Finding{f}
}
