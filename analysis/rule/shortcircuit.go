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

// faultRules compares what a protector can clear with what can flow.
func faultRules(s *site) []analysis.Finding {
	flows := s.available()
	return append(s.rated(flows), s.followCurrent(flows)...)
}

// rated compares the SCCR with the fault current. Receptacles with a protector
// of type 3 need no such mark, and the highest SCCR is enough anywhere.
func (s *site) rated(flows available) []analysis.Finding {
	sccr := s.protector.SCCR
	switch {
	case sccr <= 0 && s.protector.Type == diagram.Type3:
		return nil
	case sccr <= 0 && flows.current <= 0:
		return s.neitherKnown()
	case sccr <= 0:
		return s.sccrUnknown(flows)
	case flows.current <= 0 && sccr < highestSCCR():
		return s.flowUnknown()
	case flows.exceeds(sccr):
		return s.tooLow(flows)
	}
	return nil
}

// faultSource names the rule on the short-circuit current rating.
func (s *site) faultSource() string {
	if s.iec {
		return shortCircuitIEC
	}
	return s.nfpaOn(shortCircuit)
}

func (s *site) faultFinding(severity analysis.Severity, what, why, remedy string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: analysis.SubjectFault, What: what, Why: why, Remedy: remedy, Source: s.faultSource(),
	}}
}

func (s *site) neitherKnown() []analysis.Finding {
	return s.faultFinding(analysis.Remark,
		fmt.Sprintf("Neither the SCCR of %s nor the fault current there is known", s.on()),
		"a protector that fails must clear the current that can flow, or it bursts",
		"read the SCCR off the nameplate, and "+s.tellFault())
}

// tellFault says how the fault current can be made known.
func (s *site) tellFault() string {
	remedy := "state the fault current of the supply"
	if s.part.Kind.IsBoard() {
		remedy += ", or the one marked on the board"
	}
	return remedy
}

func (s *site) sccrUnknown(flows available) []analysis.Finding {
	return s.faultFinding(analysis.Warning,
		fmt.Sprintf("The SCCR of %s is not stated, and %s can flow there", s.on(), flows.text()),
		"a protector that fails must clear the current that can flow, or it bursts",
		fmt.Sprintf("read the SCCR off the nameplate: it must be at least %s", flows.text()))
}

// flowUnknown says what is missing, as the fault current itself tells it.
func (s *site) flowUnknown() []analysis.Finding {
	why := "whether its SCCR is enough cannot be said"
	if told := s.Faults[s.node.At].Why; told != "" {
		why += ": " + told
	}
	return s.faultFinding(analysis.Remark,
		fmt.Sprintf("The fault current at %s is not known, and %s has an SCCR of %s", s.place.name(), s.name(), kiloamperes(s.protector.SCCR)),
		why, s.tellFault())
}

// tooLow is certain unless the current is an estimate.
func (s *site) tooLow(flows available) []analysis.Finding {
	severity := analysis.Error
	if flows.estimated {
		severity = analysis.Warning
	}
	out := s.faultFinding(severity,
		fmt.Sprintf("%s has an SCCR of %s, and %s can flow there", s.on(), kiloamperes(s.protector.SCCR), flows.text()),
		"when it fails it may burst rather than clear the fault",
		s.remedyTooLow(flows))
	out[0].Working = s.faultWorking(flows)
	out[0].Mend = replaceIt
	return out
}

func (s *site) remedyTooLow(flows available) string {
	remedy := fmt.Sprintf("use one with an SCCR of at least %s", kiloamperes(cmp.Or(stepFrom(flows.current), flows.current)))
	if flows.estimated {
		remedy += ", or state the figures that the fault current is made of"
	}
	return remedy + "; a current-limiting device ahead helps only where the protector is listed with it"
}

// stepFrom returns the lowest usual SCCR that is enough for the current; 0 where
// none is, or where the current is not known.
func stepFrom(current float64) float64 {
	if current <= 0 {
		return 0
	}
	for _, kiloamperes := range sccrSteps.values {
		if step := kiloamperes * 1e3; !(available{current: current}).exceeds(step) {
			return step
		}
	}
	return 0
}

// highestSCCR is the highest usual SCCR, A. More than that does not flow in
// buildings.
func highestSCCR() float64 { return sccrSteps.values[len(sccrSteps.values)-1] * 1e3 }

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

// followCurrent tells what a gap between a line and neutral or earth must put
// out by itself after a surge. The sheet has no place for it.
func (s *site) followCurrent(flows available) []analysis.Finding {
	if !s.iec || flows.current <= 0 || !impulseTested(s.protector) || !gapAcrossLine(s.protector) {
		return nil
	}
	out := s.faultFinding(analysis.Remark,
		fmt.Sprintf("%s has a gap at its lines, and %s can follow a surge through it", s.on(), flows.text()),
		"once it has fired the supply feeds it until it puts the current out by itself",
		fmt.Sprintf("see on its nameplate that it interrupts a follow current of at least %s", flows.text()))
	out[0].Source = followIEC
	return out
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
