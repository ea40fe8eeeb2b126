package rule

import (
	"cmp"
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// available is the fault current that counts at a part.
type available struct {
	current   float64 // A; 0 not known
	estimated bool    // made with figures that the sheet does not give
	marked    bool    // as marked on the board or told on site
}

// available returns the higher of the current that was computed and the one
// marked on the board.
func (p *place) available() available {
	var out available
	if f, ok := p.fault(); ok {
		out = available{current: f.Highest(), estimated: f.Estimated}
	}
	if told := p.part.Board.FaultCurrent; p.part.Kind.IsBoard() && told > 0 && told >= out.current {
		out = available{current: told, marked: true}
	}
	return out
}

// rounding is the share by which a fault current may exceed a rating that is
// stated as the same: figures are stated to two or three digits.
const rounding = 0.005

// exceeds reports whether more can flow than a rating clears.
func (a available) exceeds(rating float64) bool { return a.current > rating*(1+rounding) }

// text writes the current: "about 22 kA" where it is an estimate.
func (a available) text() string {
	if a.estimated {
		return "about " + kiloamperes(a.current)
	}
	return kiloamperes(a.current)
}

// faultRules compare what a protector can clear with what can flow. Receptacles
// with a protector of type 3 need no mark of their SCCR, and the highest SCCR is
// enough anywhere.
func faultRules() []record[*site] {
	return about(analysis.SubjectFault,
		tellsIf("fault.neither known", (*site).neitherKnown, sayNeitherKnown),
		tellsOne("fault.SCCR unknown", (*site).sccrUnknown, saySCCRUnknown),
		tellsOne("fault.current unknown", (*site).flowUnknown, sayFlowUnknown),
		tellsOne("fault.SCCR low", (*site).sccrTooLow, saySCCRTooLow),
		tellsOne("fault.follow current", (*site).followCurrent, sayFollowCurrent),
	)
}

// faultSource names the rule on the short-circuit current rating.
func (s *site) faultSource() string {
	return s.byRules(shortCircuitIEC, s.nfpaOn(shortCircuit))
}

// marked reports whether the protector states its SCCR, or needs no such mark.
func (s *site) marked() bool { return s.protector.SCCR > 0 || s.protector.Type == diagram.Type3 }

func (s *site) neitherKnown() bool {
	return !s.marked() && s.available().current <= 0
}

const mustClear = "a protector that fails must clear the current that can flow, or it bursts"

func sayNeitherKnown(s *site) said {
	return said{
		severity: analysis.Remark,
		what:     "Neither the SCCR of " + s.on() + " nor the fault current there is known",
		why:      mustClear,
		remedy:   "read the SCCR off the nameplate, and " + s.tellFault(),
		source:   s.faultSource(),
	}
}

// tellFault says how the fault current can be made known.
func (s *site) tellFault() string {
	remedy := "state the fault current of the supply"
	if s.part.Kind.IsBoard() {
		remedy += ", or the one marked on the board"
	}
	return remedy
}

func (s *site) sccrUnknown() (available, bool) {
	flows := s.available()
	return flows, !s.marked() && flows.current > 0
}

func saySCCRUnknown(s *site, flows available) said {
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("The SCCR of %s is not stated, and %s can flow there", s.on(), flows.text()),
		why:      mustClear,
		remedy:   "read the SCCR off the nameplate: it must be at least " + flows.text(),
		source:   s.faultSource(),
	}
}

// flowUnknown returns why the fault current is not known, as that itself tells it.
// More than the highest usual SCCR does not flow in buildings.
func (s *site) flowUnknown() (why string, found bool) {
	sccr := s.protector.SCCR
	return s.Faults[s.node.At].Why, sccr > 0 && sccr < sccrSteps.highest() && s.available().current <= 0
}

func sayFlowUnknown(s *site, told string) said {
	why := "whether its SCCR is enough cannot be said"
	if told != "" {
		why += ": " + told
	}
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("The fault current at %s is not known, and %s has an SCCR of %s", s.place.name(), s.name(), kiloamperes(s.protector.SCCR)),
		why:      why,
		remedy:   s.tellFault(),
		source:   s.faultSource(),
	}
}

func (s *site) sccrTooLow() (available, bool) {
	flows, sccr := s.available(), s.protector.SCCR
	return flows, sccr > 0 && flows.exceeds(sccr)
}

// saySCCRTooLow is certain unless the current is an estimate.
func saySCCRTooLow(s *site, flows available) said {
	remedy := "use one with an SCCR of at least " + kiloamperes(cmp.Or(stepFrom(flows.current), flows.current))
	if flows.estimated {
		remedy += ", or state the figures that the fault current is made of"
	}
	return said{
		severity: ifCertain(!flows.estimated),
		who:      s.on(),
		what:     fmt.Sprintf("has an SCCR of %s, and %s can flow there", kiloamperes(s.protector.SCCR), flows.text()),
		why:      "when it fails it may burst rather than clear the fault",
		remedy:   remedy + "; a current-limiting device ahead helps only where the protector is listed with it",
		source:   s.faultSource(),
		working:  s.faultWorking(flows), mend: replaceIt,
	}
}

// stepFrom returns the lowest usual SCCR that is enough for the current; 0 where
// none is, or where the current is not known.
func stepFrom(current float64) float64 {
	if current <= 0 {
		return 0
	}
	return sccrSteps.first(func(step float64) bool { return !(available{current: current}).exceeds(step) })
}

func (s *site) faultWorking(flows available) analysis.Working {
	source := "highest of the fault currents computed at " + s.place.name()
	if flows.marked {
		source = "marked on " + s.place.name() + ", " + fromSheet
	}
	sccr := s.protector.SCCR
	return analysis.Working{
		{Label: "fault current", Result: flows.current, Unit: "A", Source: source},
		{Label: "SCCR of " + s.name(), Result: sccr, Unit: "A", Source: fromSheet},
		{
			Label: "SCCR in per cent of what can flow", Formula: "SCCR / I", Numbers: amperes(sccr) + " / " + amperes(flows.current),
			Result: 100 * sccr / flows.current, Unit: "%", Source: s.faultSource(),
		},
	}
}

// followCurrent finds a gap between a line and neutral or earth, and returns what
// it must put out by itself after a surge. The sheet has no place for it.
func (s *site) followCurrent() (available, bool) {
	flows := s.available()
	return flows, s.iec && flows.current > 0 && impulseTested(s.protector) && gapAcrossLine(s.protector)
}

func sayFollowCurrent(s *site, flows available) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "has a gap at its lines, and " + flows.text() + " can follow a surge through it",
		why:      "once it has fired the supply feeds it until it puts the current out by itself",
		remedy:   "see on its nameplate that it interrupts a follow current of at least " + flows.text(),
		source:   followIEC,
	}
}

// gapAcrossLine reports whether a gap alone stands between a line and neutral
// or earth: not one in series with the varistor of L-N, which lets no current
// follow.
func gapAcrossLine(p diagram.Protector) bool {
	toNeutral, toEarth := p.Modes[diagram.LineNeutral], p.Modes[diagram.LineEarth]
	between := p.Modes[diagram.NeutralEarth]
	if toNeutral.Connected && toNeutral.Switching {
		return true
	}
	inSeries := toNeutral.Connected && between.Connected && between.Switching
	return toEarth.Connected && toEarth.Switching && !inSeries
}
