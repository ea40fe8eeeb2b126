package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// The figures on leads.
const (
	leadWorthless = 9.144 // 30 ft of lead, m: what it adds is as much as the surge itself; common practice, no source

	shareWarned = 0.5            // of the rating, from which on what leads add is a fault; common practice, no source
	runApart    = conductor.Foot // length of leads from which their run matters, 1 ft; common practice, no source
	longerBy    = lead.Inch      // how much longer a lead is before it counts as longer; common practice, no source
)

// leadRules look at the leads: their length, their run, their bends, their
// raceway and their size. Leads of no length are a mounting on the bus itself.
func leadRules() []record[*site] {
	return about(analysis.SubjectLeads,
		tellsOne("leads.worthless", (*site).leadsWorthless, sayWorthless),
		tellsOne("leads.long", (*site).leadsLongIEC, sayLongIEC),
		tellsOne("leads.beyond VPR", (*site).leadsBeyondVPR, sayBeyondVPR),
		tellsOne("leads.apart", (*site).leadsApart, sayApart),
		tellsIf("leads.slack", (*site).leadsSlack, saySlack),
		tellsIf("leads.bends", (*site).leadsBent, sayBent),
		tellsOne("leads.earth longest", (*site).earthLongest, sayEarthLongest),
		tellsIf("leads.steel", (*site).inSteel, sayInSteel),
		tells("leads.thin", (*site).leadsThin, sayThin),
	)
}

// added returns the volts that the leads add to the rating of the protector, as
// the hand rule counts them, run apart or together.
func added(p diagram.Protector, together bool) float64 {
	return lead.RateOf(together).Volts(p.Rating, lead.Longest(&p), nil)
}

// tied reports whether the leads run together.
func tied(p diagram.Protector) bool { return lead.Together(&p) }

// byRun ends a figure of what leads add with how it depends on how they lie.
func (s *site) byRun() string {
	switch {
	case tied(s.protector):
		return "; the hand rule, which takes leads as apart, counts about " + wholeVolts(added(s.protector, false))
	case s.protector.Leads.Run == "":
		return ", unless they are twisted or tied"
	}
	return ""
}

// lengths are what the rules on the length of leads go by.
type lengths struct {
	lead.Pair
	together bool    // they run together
	adds     float64 // to the rating, V
	rating   float64 // V
}

func (s *site) lengths() lengths {
	together := tied(s.protector)
	return lengths{lead.Longest(&s.protector), together, added(s.protector, together), lead.LineLevel(&s.protector)}
}

func (l lengths) longest() float64 { return max(l.Line, l.Back) }
func (l lengths) total() float64   { return analysis.ToMicrometre(l.Line + l.Back) }

// longs writes the two lengths: "26 in", or "26 in and 30 in" where they differ.
func (s *site) longs(l lengths) string {
	first, second := s.leadText(l.Line), s.leadText(l.Back)
	if first == second {
		return first
	}
	return first + " and " + second
}

func (s *site) leadsWorthless() (lengths, bool) {
	l := s.lengths()
	return l, l.longest() >= leadWorthless
}

// sayWorthless is certain where the leads run apart.
func sayWorthless(s *site, l lengths) said {
	return said{
		severity: ifCertain(!l.together),
		who:      s.on(),
		what:     "has leads of " + s.lengthText(l.longest()) + " and does next to nothing",
		why:      fmt.Sprintf("they add about %s to what the protector itself lets through%s", wholeVolts(l.adds), s.byRun()),
		remedy:   "mount it at the board, with leads as short as can be" + s.shortPlace(),
		source:   commonPractice,
		working:  s.leadWorking(l.together), mend: s.shorter(),
	}
}

// shortPlace points to the place that was found on site.
func (s *site) shortPlace() string {
	if told := s.part.Board.ShortLead; told != "" {
		return "; room for short leads: " + told
	}
	return ""
}

// leadsLongIEC is IEC 60364-5-53 clause 534.4.8.
func (s *site) leadsLongIEC() (lengths, bool) {
	l := s.lengths()
	return l, s.iec && l.longest() < leadWorthless && l.total() > lead.Preferred
}

func sayLongIEC(s *site, l lengths) said {
	severity, word := analysis.Warning, "should preferably be at most "+s.leadText(lead.Preferred)
	if l.total() > lead.AtMost {
		severity, word = analysis.Error, "may be at most "+s.leadText(lead.AtMost)
	}
	adds, working := s.addsIEC(l)
	return said{
		severity: severity,
		what:     fmt.Sprintf("The leads of %s are %s in all, live and earth side; they %s", s.on(), s.leadText(l.total()), word),
		why:      fmt.Sprintf("they add about %s to what the protector itself lets through%s", wholeVolts(adds), s.byRun()),
		remedy:   "shorten them, route the circuit through its terminals, or add an earth bar beside it" + s.shortPlace(),
		source:   leadsIEC,
		working:  working, mend: s.shorter(),
	}
}

// leadsBeyondVPR compares what leads add with the VPR that they add to.
func (s *site) leadsBeyondVPR() (lengths, bool) {
	l := s.lengths()
	return l, !s.iec && s.protector.Rating != diagram.Up && l.longest() < leadWorthless && l.rating > 0 && l.adds >= lead.ShareUnsaid*l.rating-margin
}

func sayBeyondVPR(s *site, l lengths) said {
	severity := analysis.Remark
	if l.adds >= shareWarned*l.rating-margin {
		severity = analysis.Warning
	}
	return said{
		severity: severity,
		what:     fmt.Sprintf("The leads of %s are %s long, and its VPR includes %s", s.on(), s.longs(l), s.leadText(lead.InVPR)),
		why:      fmt.Sprintf("they add about %s to its %s%s", wholeVolts(l.adds), wholeVolts(l.rating), s.byRun()),
		remedy:   "shorten them" + s.shortPlace(),
		source:   s.leadSource(l.together),
		working:  s.leadWorking(l.together), mend: s.shorter(),
	}
}

// leadsApart finds leads that would do better tied together.
func (s *site) leadsApart() (lengths, bool) {
	l := s.lengths()
	return l, !l.together && min(l.Line, l.Back) > runApart && l.longest() < leadWorthless
}

func sayApart(s *site, l lengths) said {
	what := fmt.Sprintf("The leads of %s run apart over %s", s.on(), s.leadText(min(l.Line, l.Back)))
	if s.protector.Leads.Run == "" {
		what = fmt.Sprintf("How the leads of %s run over %s is not stated: they are taken to run apart", s.on(), s.leadText(min(l.Line, l.Back)))
	}
	return said{
		severity: analysis.Remark,
		what:     what,
		why: fmt.Sprintf("twisted or tied together they add about %s rather than %s: the fields of the two cancel; the transient shows it, the hand rule does not count it",
			wholeVolts(added(s.protector, true)), wholeVolts(l.adds)),
		remedy:  "twist them, or tie them together over their whole length",
		source:  s.leadSource(true),
		working: append(s.leadWorking(false), s.leadWorking(true)...),
		mend:    s.altered("twist the leads of …", func(p *diagram.Protector) { p.Leads.Run = diagram.Twisted }),
	}
}
