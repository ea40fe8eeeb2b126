package rule

import (
	"slices"
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
func continuousRules() []record[*site] {
	return about(analysis.SubjectContinuous,
		tellsAll("continuous.too low", modesOf(ratedShort), sayRatedShort),
		tellsAll("continuous.little room", modesOf(littleRoom), sayLittleRoom),
		tellsAll("continuous.not stated", modesOf(ratingUnstated), sayRatingUnstated),
		tellsAll("continuous.network fault", (*site).linesWeak, sayLinesWeak),
		tellsIf("continuous.neutral in fault", (*site).neutralWeak, sayNeutralWeak).unless("continuous.no gap"),
		tellsIf("continuous.no gap", (*site).gapMissing, sayGapMissing),
	)
}

// room is how what a mode bears compares with what it has to.
type room int

const (
	enoughRoom room = iota
	ratedShort
	littleRoom     // the rating is reached, and by little more
	ratingUnstated // a level is stated, but not what the mode stands for ever
)

// room leaves out the modes of which the rules on earthing and on the high leg
// tell.
func (s *site) room(mode diagram.Mode) room {
	least := s.least(mode)
	volts, stated := bears(s.protector, mode)
	switch {
	case least.volts <= 0 || s.onlyIfHeld(mode) || s.onlyOrdinaryLines(mode):
		return enoughRoom
	case volts > 0 && !s.reaches(volts, stated, least):
		return ratedShort
	case !stated && s.protector.Modes[mode].Level > 0:
		return ratingUnstated
	case stated && !s.iec && volts < usualRoom*least.volts-margin && !s.assumed(mode):
		return littleRoom
	}
	return enoughRoom
}

// modesOf returns the predicate that finds the modes with so much room.
func modesOf(r room) func(*site) []diagram.Mode {
	return func(s *site) []diagram.Mode {
		return s.modesWhere(func(mode diagram.Mode) bool { return s.room(mode) == r })
	}
}

// assumed reports whether what stands across a mode is the higher of what may
// stand there: two lines without a neutral do not say of what they are.
func (s *site) assumed(mode diagram.Mode) bool {
	return mode == diagram.LineEarth && s.system.Wiring == diagram.Single && !s.system.Neutral && s.system.Earthing.HoldsNeutral()
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

func sayRatedShort(s *site, modes []diagram.Mode) said {
	out := said{
		severity: analysis.Error,
		who:      s.on() + ":",
		what:     s.rating() + " too low for " + systemWords(s.system) + " in " + listed(modes),
		why:      "when the supply runs high within its tolerance, the protector conducts, ages fast and fails",
		remedy:   "replace it by one with at least " + s.leastEach(modes),
		source:   s.least(modes[0]).source,
		mend:     replaceIt,
	}
	for _, mode := range modes {
		out.working = append(out.working, s.bearsStep(mode), s.least(mode).step(s.system))
	}
	if slices.ContainsFunc(modes, s.below) {
		out.why = "the voltage there is always above what it is made for: it conducts, overheats and can burn"
		out.remedy = "keep it switched off until one with at least " + s.leastEach(modes) + " is in its place"
	}
	return out
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

func sayLittleRoom(s *site, modes []diagram.Mode) said {
	out := said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "has little margin for swells in " + listed(modes),
		why:      "its " + s.rating() + " is less than 1.1 times the voltage there; one of 1.1 to 1.4 times outlives more swells",
		remedy:   "where the voltage is known to run high, use one with a higher " + s.rating(),
		source:   commonPractice,
	}
	for _, mode := range modes {
		mcov, least := s.protector.Modes[mode].MCOV, s.least(mode)
		out.working = append(out.working, s.bearsStep(mode), least.step(s.system), roomStep(mcov, least.volts))
		if mcov < rangeB*least.volts-margin {
			out.severity = analysis.Warning
			out.why = "the supply may run 5.8 % above its nominal voltage for a time, which is above its " + s.rating()
			out.remedy = "use one with " + article(s.rating()) + " of at least 1.1 times the nominal voltage"
			out.source = "ANSI C84.1-2020 table 1, range B " + recalled
		}
	}
	return out
}

func roomStep(mcov, nominal float64) analysis.Step {
	return analysis.Step{
		Label: "margin for swells, 110 to 140 % being usual", Formula: "MCOV / U", Numbers: volts(mcov) + " / " + volts(nominal),
		Result: 100 * mcov / nominal, Unit: "%", Source: commonPractice,
	}
}

func sayRatingUnstated(s *site, modes []diagram.Mode) said {
	severity, why := analysis.Remark, "it is taken as enough for "+s.protector.System.String()+", which it is made for"
	if !s.protector.System.Known() {
		severity, why = analysis.Warning, "without it nobody can say whether it withstands "+s.system.String()+" continuously"
	}
	var steps analysis.Working
	for _, mode := range modes {
		steps = append(steps, s.least(mode).step(s.system))
	}
	return said{
		severity: severity,
		who:      s.on(),
		what:     "does not state its " + s.rating() + " in " + listed(modes),
		why:      why,
		remedy:   "read it off the nameplate: at least " + s.leastEach(modes),
		source:   s.least(modes[0]).source,
		working:  steps,
	}
}
