package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// earthingRules look at what the earthing of the bus asks of a protector: what
// stands to earth in a fault, how it is connected to earth, and which modes have
// nothing to do there.
func earthingRules() []record[*site] {
	return about(analysis.SubjectEarthing,
		tellsIf("earthing.line voltage", (*site).asksForLineVoltage, sayLineVoltage),
		tellsIf("earthing.not stated", (*site).earthingNotStated, sayEarthingNotStated),
		tellsIf("earthing.listing", (*site).notListed, sayNotListed).unless("earthing.line voltage", "earthing.not stated"),
		tellsIf("earthing.other listing", (*site).otherListing, sayOtherListing).unless("earthing.line voltage", "earthing.not stated"),
		tellsIf("earthing.straight to earth", (*site).lineToEarth, sayLineToEarth),
		tellsIf("earthing.no path", (*site).noPath, sayNoPath).unless("earthing.straight to earth"),
		tellsIf("earthing.idle mode", (*site).idleAtBond, sayIdleAtBond),
		tellsIf("earthing.mode in PEN", (*site).modeInPEN, sayModeInPEN),
	)
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

// asksForLineVoltage finds a protector for a held neutral where nothing holds it.
func (s *site) asksForLineVoltage() bool {
	return s.onlyIfHeld(diagram.LineEarth) && s.system.Earthing != ""
}

func sayLineVoltage(s *site) said {
	line := volts(s.system.HighestToEarth())
	why := "when one line touches earth the others have " + line + " to it, and no breaker opens: the protector conducts, overheats and can burn"
	if s.system.Earthing == diagram.Corner {
		why = "one line is earthed here, and the others always have " + line + " to it: the protector conducts, overheats and can burn"
	}
	who, what := s.tooLowFor(diagram.LineEarth)
	return said{
		severity: analysis.Error,
		who:      who,
		what:     what,
		why:      why,
		remedy:   "keep it switched off until one with at least " + line + " L-G" + s.byRules("", ", listed for this earthing,") + " is in its place",
		source:   s.earthingSource(),
		working:  s.bearing([]diagram.Mode{diagram.LineEarth}),
		mend:     replaceIt,
	}
}

// earthingNotStated finds a protector for a held neutral where it is not known
// whether anything holds it.
func (s *site) earthingNotStated() bool {
	return s.onlyIfHeld(diagram.LineEarth) && s.system.Earthing == ""
}

func sayEarthingNotStated(s *site) said {
	line := volts(s.system.HighestToEarth())
	return said{
		severity: analysis.Warning,
		what:     "The earthing at " + s.place.name() + " is not stated, and " + s.name() + " is rated only for a solidly earthed neutral",
		why:      "without it the system is taken as unearthed: a line can then have " + line + " to earth",
		remedy:   "state the earthing at the source; where it is not solid, use a protector with at least " + line + " L-G",
		source:   s.earthingSource(),
		working:  s.bearing([]diagram.Mode{diagram.LineEarth}),
	}
}

// tooLowFor says that a mode of the protector is not rated for the system.
func (s *site) tooLowFor(mode diagram.Mode) (who, what string) {
	if _, stated := bears(s.protector, mode); !stated {
		return s.on(), "is not rated for " + systemWords(s.system)
	}
	return s.on() + ":", s.rating() + " too low for " + systemWords(s.system)
}

func (s *site) earthingSource() string {
	return s.byRules(ucSource(s.codes.Uc), s.nfpaOn(unsuited))
}

// asksForListing reports whether North America asks for a listing for the earthing
// of the bus, which is known, and the protector is made for the voltage of the bus:
// of another one is told, and of the marking with it.
func (s *site) asksForListing() bool {
	return !s.iec && s.system.Earthing != "" && s.free() && s.protector.System.Known() && !s.otherVoltage()
}

// notListed finds a protector that is made for an earthing that holds the neutral.
func (s *site) notListed() bool {
	own := s.protector.System
	return s.asksForListing() && own.Earthing.HoldsNeutral() && own.Wiring != diagram.Delta
}

func sayNotListed(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "is made for " + s.protector.System.String() + " with an earthed neutral, and the bus has " + s.system.String(),
		why:      "on an ungrounded, impedance-grounded or corner-grounded system use a protector only where it is listed for that earthing, whatever its MCOV",
		remedy:   "see whether its marking names this earthing, and state that system here; else put one listed for it in its place",
		source:   s.nfpaOn(unsuited),
	}
}

// otherListing finds a protector that is made for another earthing that does not
// hold the neutral than that of the bus. A delta that is said to be earthed solidly
// tells nothing.
func (s *site) otherListing() bool {
	own := s.protector.System.Earthing
	return s.asksForListing() && own != "" && !own.HoldsNeutral() && own != s.system.Earthing
}

func sayOtherListing(s *site) said {
	out := sayNotListed(s)
	out.severity = analysis.Remark
	out.what = "is made for " + s.protector.System.String() + ", and the bus has " + s.system.String()
	out.why = "its ratings are high enough, but on a system whose neutral is not solidly earthed a protector must be listed for that earthing"
	return out
}

// noPath finds a protector without a way from the lines to earth where none beside
// it has one. IEC has two: every line by an element of its own, or every line to the
// neutral and the neutral through one to earth, so that two of them in series span
// line and earth.
func (s *site) noPath() bool {
	return s.iec && !s.reachesEarth() && !s.earthElsewhere() && len(s.modes()) > 0 && !s.pointOfUse()
}

func sayNoPath(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "has no path from the lines to earth",
		why:      "a surge on all conductors at once finds no path through it",
		remedy:   "use one with an element from each line to earth, or one with each line to the neutral and the neutral to earth",
		source:   connectionTypes,
		mend:     replaceIt,
	}
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
		return p.ID != s.protector.ID && s.beside(p).reachesEarth()
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

func (s *site) lineToEarth() bool { return s.iec && s.straightToEarth() }

func sayLineToEarth(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "connects the lines straight to earth on a TT system, with no residual-current device drawn ahead of it",
		why: "if it fails, too little current flows through the earth electrode to open a breaker, and everything earthed becomes live; " +
			"a gap between neutral and earth prevents that",
		remedy: "use one with each line to the neutral and a spark gap or gas tube from there to earth, and leave its mode L-G out here; " +
			"or, if a residual-current device is ahead of it or is the main switch there, choose the breaker or switch at the source end of the feeder to it and tick \"Residual-current device\" there",
		source: connectionTypes,
		mend:   replaceIt,
	}
}

// idleAtBond finds a mode between neutral and earth where the two are bonded.
func (s *site) idleAtBond() bool {
	return s.connects(diagram.NeutralEarth) && s.bonded() && s.system.Earthing != diagram.TNC
}

func sayIdleAtBond(s *site) said {
	return said{
		severity: analysis.Remark,
		what:     "Mode N-G of " + s.on() + " does nothing: neutral and earth are bonded there",
		why:      "there is no voltage between them at the bond; L-N and L-G are the same there",
		remedy:   "nothing need change; one without the mode does as well here",
		source:   commonPractice,
	}
}

// modeInPEN finds a mode between neutral and earth where the two are one conductor.
func (s *site) modeInPEN() bool {
	return s.connects(diagram.NeutralEarth) && s.system.Earthing == diagram.TNC
}

func sayModeInPEN(s *site) said {
	return said{
		severity: analysis.Warning,
		what:     "Mode N-G of " + s.on() + " cannot be connected: neutral and earth are one conductor there",
		why:      "a TN-C system has a PEN conductor only",
		remedy:   "connect its neutral and its earth to the PEN conductor, or use one with the lines to PEN alone",
		source:   connectionTypes,
	}
}
