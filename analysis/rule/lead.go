package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

const inch = 0.0254 // m

// The figures on leads. Apart means two separate conductors, together means
// twisted or tied.
const (
	leadInVPR     = 6 * inch // the lead that a VPR includes: UL 1449
	leadWorthless = 9.144    // 30 ft of lead, m: what it adds is as much as the surge itself; common practice, no source
	leadPreferred = 0.5      // live and earth side, m: IEC 60364-5-53 clause 534.4.8
	leadAtMost    = 1.0      // the same

	voltsApart    = 25 / inch  // V/m of two leads beyond those in a VPR, as the hand rule has it; common practice, no source
	voltsTogether = 3.9 / inch // computed for the 6 kV, 3 kA combination wave in two touching wires of 10 AWG, 0.21 µH/m each
	voltsApartUp  = 1000.0     // V/m of each lead, added to an Up: IEC 61643-12, from memory
	voltsTieUp    = 210.0      // the same with 0.21 µH/m in place of 1 µH/m

	shareTold   = 0.1    // of the rating that leads may add without a word; common practice, no source
	shareWarned = 0.5    // and from which on they are a fault
	runApart    = 0.3048 // length of leads from which their run matters, 1 ft; common practice, no source
	longerBy    = inch   // how much longer a lead is before it counts as longer; common practice, no source
)

// leadRules look at the leads: their length, their run, their bends, their
// raceway and their size. Leads of no length are a mounting on the bus itself.
func leadRules(s *site) []analysis.Finding {
	out := s.leadLength()
	out = append(out, s.leadsApart()...)
	out = append(out, s.leadShape()...)
	out = append(out, s.earthLongest()...)
	out = append(out, s.inSteel()...)
	return append(out, s.leadSizes()...)
}

// leadFinding is a finding on the leads.
func leadFinding(severity analysis.Severity, what, why, remedy, source string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: analysis.SubjectLeads, What: what, Why: why, Remedy: remedy, Source: source,
	}}
}

// uses reports whether the protector has something in one of the modes. Where
// none is stated it may have all.
func uses(p diagram.Protector, modes ...diagram.Mode) bool {
	stated := false
	for _, r := range p.Modes {
		stated = stated || r.Connected
	}
	for _, mode := range modes {
		if p.Modes[mode].Connected || !stated {
			return true
		}
	}
	return false
}

func usesNeutral(p diagram.Protector) bool {
	return uses(p, diagram.LineNeutral, diagram.NeutralEarth)
}

func usesEarth(p diagram.Protector) bool { return uses(p, diagram.LineEarth, diagram.NeutralEarth) }

// pair returns the lengths of the line lead and of the longest lead by which
// the current goes back, m.
func pair(p diagram.Protector) (line, back float64) {
	line = p.Leads.Phase.Length
	if !usesNeutral(p) && !usesEarth(p) {
		return line, line
	}
	if usesNeutral(p) {
		back = p.Leads.Neutral.Length
	}
	if usesEarth(p) {
		back = max(back, p.Leads.Earth.Length)
	}
	return line, back
}

// added returns the volts that the leads add to the rating of the protector, as
// the hand rule counts them, run apart or together.
func added(p diagram.Protector, together bool) float64 {
	line, back := pair(p)
	slope, slopeUp := voltsApart, voltsApartUp
	if together {
		slope, slopeUp = voltsTogether, voltsTieUp
	}
	if p.Rating == diagram.Up {
		return slopeUp * (line + back)
	}
	return slope * max(0, analysis.ToMicrometre((line+back)/2-leadInVPR))
}

// tied reports whether the leads run together.
func tied(p diagram.Protector) bool {
	return p.Leads.Run == diagram.Bundled || p.Leads.Run == diagram.Twisted
}

// byRun ends a figure of what leads add with how it depends on how they lie.
func (s *site) byRun() string {
	switch {
	case tied(s.protector):
		return fmt.Sprintf("; the hand rule, which takes leads as apart, counts about %s", wholeVolts(added(s.protector, false)))
	case s.protector.Leads.Run == "":
		return ", unless they are twisted or tied"
	}
	return ""
}

// lineLevel returns the lowest rating between a line and neutral or earth, V, or 0.
func lineLevel(p diagram.Protector) float64 {
	out := 0.0
	for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth} {
		if r := p.Modes[mode]; r.Connected && r.Level > 0 && (out == 0 || r.Level < out) {
			out = r.Level
		}
	}
	return out
}

// leadLength checks how long the leads are.
func (s *site) leadLength() []analysis.Finding {
	line, back := pair(s.protector)
	switch total := analysis.ToMicrometre(line + back); {
	case max(line, back) >= leadWorthless:
		return s.leadsWorthless()
	case s.iec && total > leadPreferred:
		return s.leadsLongIEC(total)
	case !s.iec && s.protector.Rating != diagram.Up:
		return s.leadsBeyondVPR()
	}
	return nil
}

// longs writes the lengths of the two leads that count: "26 in", or "26 in and
// 30 in" where they differ.
func (s *site) longs() string {
	line, back := pair(s.protector)
	first, second := s.leadText(line), s.leadText(back)
	if first == second {
		return first
	}
	return first + " and " + second
}

// leadsWorthless is certain where the leads run apart.
func (s *site) leadsWorthless() []analysis.Finding {
	severity, together := analysis.Error, tied(s.protector)
	if together {
		severity = analysis.Warning
	}
	line, back := pair(s.protector)
	out := leadFinding(severity,
		fmt.Sprintf("%s has leads of %s and does next to nothing", s.on(), s.lengthText(max(line, back))),
		fmt.Sprintf("they add about %s to what the protector itself lets through%s", wholeVolts(added(s.protector, together)), s.byRun()),
		"mount it at the board, with leads as short as can be"+s.shortPlace(),
		commonPractice)
	out[0].Working, out[0].Mend = s.leadWorking(together), s.shorter()
	return out
}

// shortPlace tells where the survey found room for short leads.
func (s *site) shortPlace() string {
	if told := s.part.Board.ShortLead; told != "" {
		return "; room for short leads: " + told
	}
	return ""
}

func (s *site) leadsLongIEC(total float64) []analysis.Finding {
	severity, word := analysis.Warning, "should preferably be at most "+s.leadText(leadPreferred)
	if total > leadAtMost {
		severity, word = analysis.Error, "may be at most "+s.leadText(leadAtMost)
	}
	out := leadFinding(severity,
		fmt.Sprintf("The leads of %s are %s in all, live and earth side; they %s", s.on(), s.leadText(total), word),
		fmt.Sprintf("they add about %s to what the protector itself lets through%s", wholeVolts(s.perMetre()*total), s.byRun()),
		"shorten them, route the circuit through its terminals, or add an earth bar beside it"+s.shortPlace(),
		leadsIEC)
	out[0].Working, out[0].Mend = s.leadWorkingIEC(total), s.shorter()
	return out
}

// perMetre returns what a metre of lead adds to an Up, V/m.
func (s *site) perMetre() float64 {
	if tied(s.protector) {
		return voltsTieUp
	}
	return voltsApartUp
}

// leadsBeyondVPR tells of leads that add a good part of the rating.
func (s *site) leadsBeyondVPR() []analysis.Finding {
	vpr, together := lineLevel(s.protector), tied(s.protector)
	more := added(s.protector, together)
	if vpr <= 0 || more < shareTold*vpr {
		return nil
	}
	severity := analysis.Remark
	if more >= shareWarned*vpr {
		severity = analysis.Warning
	}
	out := leadFinding(severity,
		fmt.Sprintf("The leads of %s are %s long, and its VPR includes %s", s.on(), s.longs(), s.leadText(leadInVPR)),
		fmt.Sprintf("they add about %s to its %s%s", wholeVolts(more), wholeVolts(vpr), s.byRun()),
		"shorten them"+s.shortPlace(),
		s.leadSource(together))
	out[0].Working, out[0].Mend = s.leadWorking(together), s.shorter()
	return out
}

// leadsApart tells what it would win to tie the leads together.
func (s *site) leadsApart() []analysis.Finding {
	p := s.protector
	line, back := pair(p)
	apart, together := added(p, false), added(p, true)
	if tied(p) || min(line, back) <= runApart || max(line, back) >= leadWorthless {
		return nil
	}
	out := leadFinding(analysis.Remark,
		s.saysApart(min(line, back)),
		fmt.Sprintf("twisted or tied together they add about %s rather than %s: the fields of the two cancel; the transient shows it, the hand rule does not count it", wholeVolts(together), wholeVolts(apart)),
		"twist them, or tie them together over their whole length",
		s.leadSource(true))
	out[0].Working = append(s.leadWorking(false), s.leadWorking(true)...)
	out[0].Mend = analysis.MendProtector(p.ID, "twist the leads of …", s.name(),
		func(p *diagram.Protector) { p.Leads.Run = diagram.Twisted })
	return out
}

// saysApart says that leads run apart, or that they are taken to.
func (s *site) saysApart(length float64) string {
	if s.protector.Leads.Run == "" {
		return fmt.Sprintf("How the leads of %s run over %s is not stated: they are taken to run apart", s.on(), s.leadText(length))
	}
	return fmt.Sprintf("The leads of %s run apart over %s", s.on(), s.leadText(length))
}
