package rule

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

const (
	// rangeB is how far service may run above its nominal voltage for a limited
	// time: 127 V on 120 V (ANSI C84.1-2020 table 1, range B, from memory).
	rangeB = 127.0 / 120
	// usualRoom is the least ratio of MCOV to the nominal voltage that is usual: 1.1
	// to 1.4 (common practice, no source).
	usualRoom = 1.1
)

// ucSource names the table of the least Uc.
func ucSource(table diagram.UcTable) string {
	if table == diagram.UcOlder {
		return "IEC 60364-5-53:2001 with amendment 1:2002, clause 534.2.3.2 " + recalled
	}
	return newerUc
}

// continuousRules look at what each mode stands for ever, beside what stands
// there for ever, or for the seconds of a fault.
func continuousRules(s *site) []analysis.Finding {
	if !s.system.Known() || s.misplaced() {
		return nil
	}
	var short, narrow, unstated group
	for _, mode := range s.modes() {
		least := s.least(mode)
		volts, stated := bears(s.protector, mode)
		switch {
		case least.volts <= 0 || s.onlyIfHeld(mode) || s.onlyOrdinaryLines(mode):
		case volts > 0 && !s.reaches(volts, stated, least):
			short.add(mode, s.bearsStep(mode), least.step(s.system))
		case !stated && s.protector.Modes[mode].Level > 0:
			unstated.add(mode, least.step(s.system))
		case stated && !s.iec && volts < usualRoom*least.volts-margin && !s.assumed(mode):
			narrow.add(mode, s.bearsStep(mode), least.step(s.system), roomStep(volts, least.volts))
		}
	}
	return append(s.continuousFindings(short, narrow, unstated), s.faultSeconds()...)
}

// assumed reports whether what stands across a mode is the higher of what may
// stand there: two lines without a neutral do not say of what they are.
func (s *site) assumed(mode diagram.Mode) bool {
	return mode == diagram.LineEarth && s.system.Wiring == diagram.Single && !s.system.Neutral && s.system.Earthing.HoldsNeutral()
}

func (s *site) continuousFindings(short, narrow, unstated group) []analysis.Finding {
	var out []analysis.Finding
	if len(short.modes) > 0 {
		out = append(out, s.ratedShort(short))
	}
	if len(narrow.modes) > 0 {
		out = append(out, s.littleRoom(narrow))
	}
	if len(unstated.modes) > 0 {
		out = append(out, s.ratingUnstated(unstated))
	}
	return out
}

// group is the modes that share a finding, with their working.
type group struct {
	modes []diagram.Mode
	steps analysis.Working
}

func (g *group) add(mode diagram.Mode, steps ...analysis.Step) {
	g.modes, g.steps = append(g.modes, mode), append(g.steps, steps...)
}

// least is the voltage that a mode has to stand for ever.
type least struct {
	volts   float64 // V rms; 0 where nothing is asked for
	mode    diagram.Mode
	formula string
	numbers string
	source  string
}

// least returns what a mode has to stand: in North America what stands across
// it, by IEC what the table of clause 534 asks for.
func (s *site) least(mode diagram.Mode) least {
	if s.iec {
		return leastUc(s.system, mode, s.free(), s.codes.Uc)
	}
	return least{volts: s.across(mode), mode: mode, source: s.nfpaOn(unsuited)}
}

// leastUc returns the least continuous voltage of a mode by the table of
// IEC 60364-5-53 clause 534: 1.1 U0 to neutral and to a held earth, and U0
// between neutral and earth. Where nothing holds the neutral (IT) it is 1.1 times
// the voltage between lines to earth and 1.1 U0 for the neutral; in older
// editions without the factor. A public copy of the older table prints U0 for
// line to earth of IT with a neutral; √3 U0, from memory, is what a first fault
// puts there.
func leastUc(system diagram.System, mode diagram.Mode, free bool, table diagram.UcTable) least {
	out := least{mode: mode, source: ucSource(table)}
	u0, u, older := system.HighestToNeutral(), system.Voltage, table == diagram.UcOlder
	switch {
	case mode == diagram.LineLine:
		out.tenths(11, u, "U")
	case mode == diagram.NeutralEarth && (!free || older):
		out.tenths(10, system.LineToNeutral(), "U0")
	case mode == diagram.NeutralEarth:
		out.tenths(11, system.LineToNeutral(), "U0")
	case mode == diagram.LineEarth && free && older:
		out.tenths(10, u, "U")
	case mode == diagram.LineEarth && free:
		out.tenths(11, u, "U")
	default:
		out.tenths(11, u0, "U0")
	}
	return out
}

// tenths sets the voltage to so many tenths of another, which the formula names.
// Tenths keep 253 V a whole number.
func (l *least) tenths(n, voltage float64, name string) {
	l.volts, l.formula, l.numbers = n*voltage/10, name, volts(voltage)
	if n != 10 {
		l.formula = analysis.Figure(n/10) + " " + name
		l.numbers = analysis.Figure(n/10) + " × " + volts(voltage)
	}
}

func (l least) step(system diagram.System) analysis.Step {
	return analysis.Step{
		Label: "least " + l.mode.String() + " on " + system.String(), Formula: l.formula, Numbers: l.numbers,
		Result: l.volts, Unit: "V", Source: l.source,
	}
}

// reaches reports whether what a mode bears reaches the least. What is only
// inferred from the system that the protector is made for need not hold the
// factor of a table.
func (s *site) reaches(volts float64, stated bool, l least) bool {
	if stated {
		return volts >= l.volts-margin
	}
	return volts >= s.across(l.mode)
}

func (s *site) ratedShort(g group) analysis.Finding {
	f := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectContinuous,
		What:    s.on() + ": " + s.rating() + " too low for " + systemWords(s.system) + " in " + listed(g.modes),
		Why:     "when the supply runs high within its tolerance, the protector conducts, ages fast and fails",
		Remedy:  "replace it by one with at least " + s.leastEach(g.modes),
		Source:  s.least(g.modes[0]).source,
		Working: g.steps,
		Mend:    replaceIt,
	}
	for _, mode := range g.modes {
		if s.below(mode) {
			f.Why = "the voltage there is always above what it is made for: it conducts, overheats and can burn"
			f.Remedy = "keep it switched off until one with at least " + s.leastEach(g.modes) + " is in its place"
		}
	}
	return f
}

// article puts the article before a short name.
func article(name string) string {
	if name == "MCOV" {
		return "an " + name
	}
	return "a " + name
}

// leastEach writes what each of the modes has to stand: "253 V L-N and 440 V L-L".
func (s *site) leastEach(modes []diagram.Mode) string {
	out := make([]string, len(modes))
	for i, mode := range modes {
		out[i] = volts(s.least(mode).volts) + " " + mode.String()
	}
	return strings.Join(out, " and ")
}

func roomStep(mcov, nominal float64) analysis.Step {
	return analysis.Step{
		Label: "margin for swells, 110 to 140 % being usual", Formula: "MCOV / U", Numbers: volts(mcov) + " / " + volts(nominal),
		Result: 100 * mcov / nominal, Unit: "%", Source: commonPractice,
	}
}

// littleRoom is the finding on an MCOV that is reached by what stands there, and
// by little more.
func (s *site) littleRoom(g group) analysis.Finding {
	f := analysis.Finding{
		Severity: analysis.Remark, Subject: analysis.SubjectContinuous,
		What:    s.on() + " has little margin for swells in " + listed(g.modes),
		Why:     "its " + s.rating() + " is less than 1.1 times the voltage there; one of 1.1 to 1.4 times outlives more swells",
		Remedy:  "where the voltage is known to run high, use one with a higher " + s.rating(),
		Source:  commonPractice,
		Working: g.steps,
	}
	for _, mode := range g.modes {
		if s.protector.Modes[mode].MCOV < rangeB*s.least(mode).volts-margin {
			f.Severity = analysis.Warning
			f.Why = "the supply may run 5.8 % above its nominal voltage for a time, which is above its " + s.rating()
			f.Remedy = "use one with " + article(s.rating()) + " of at least 1.1 times the nominal voltage"
			f.Source = "ANSI C84.1-2020 table 1, range B " + recalled
		}
	}
	return f
}

// ratingUnstated is the finding on modes that state a level, but not what they
// stand for ever.
func (s *site) ratingUnstated(g group) analysis.Finding {
	f := analysis.Finding{
		Severity: analysis.Remark, Subject: analysis.SubjectContinuous,
		What:    s.on() + " does not state its " + s.rating() + " in " + listed(g.modes),
		Why:     "it is taken as enough for " + s.protector.System.String() + ", which it is made for",
		Remedy:  "read it off the nameplate: at least " + s.leastEach(g.modes),
		Source:  s.least(g.modes[0]).source,
		Working: g.steps,
	}
	if !s.protector.System.Known() {
		f.Severity = analysis.Warning
		f.Why = "without it nobody can say whether it withstands " + s.system.String() + " continuously"
	}
	return f
}
