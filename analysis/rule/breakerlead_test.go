package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// NFPA 70 section 240.4(D): 14, 12 and 10 AWG of copper on 15, 20 and 30 A.
func TestBreakerForLeads(t *testing.T) {
	leads := func(awg int, rated float64, more ...func(*diagram.Protector)) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Breaker = diagram.BreakerData{Rated: rated, Least: 15}
			lead := diagram.Lead{Length: 0.1, Area: unit.AWGArea(awg)}
			p.Leads = diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}
			for _, alter := range more {
				alter(p)
			}
		}
	}
	most := func(rated, size, most string) []string {
		return []string{"warning: SPD on main is on a breaker of " + rated + "\u00a0A with leads of " + size + " AWG, which allow at most " + most + "\u00a0A"}
	}
	thinEarth := func(p *diagram.Protector) { p.Leads.Earth.Area = unit.AWGArea(14) }
	thinNeutral := func(p *diagram.Protector) { p.Leads.Neutral.Area = unit.AWGArea(12) }
	cord := func(p *diagram.Protector) { p.Type, p.Breaker.Shared = diagram.Type3, true }
	onBus := func(p *diagram.Protector) { p.Leads.Phase.Length, p.Leads.Neutral.Length = 0, 0 }
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"14 AWG on 15 A", served(t).attach("main", leads(14, 15)), nil},
		{"14 AWG on 20 A", served(t).attach("main", leads(14, 20)), most("20", "14", "15")},
		{"12 AWG on 20 A", served(t).attach("main", leads(12, 20)), nil},
		{"12 AWG on 30 A", served(t).attach("main", leads(12, 30)), most("30", "12", "20")},
		{"10 AWG on 30 A", served(t).attach("main", leads(10, 30)), nil},
		{"10 AWG on 60 A", served(t).attach("main", leads(10, 60)), most("60", "10", "30")},
		{"8 AWG on 60 A", served(t).attach("main", leads(8, 60)), nil},
		{"2.08 mm², as a table rounds it", served(t).attach("main", leads(14, 15, func(p *diagram.Protector) { p.Leads.Phase.Area = 2.1e-6 })), nil},
		{"the thinnest counts", served(t).attach("main", leads(8, 60, thinNeutral)), most("60", "12", "20")},
		{"but not the earth lead", served(t).attach("main", leads(8, 60, thinEarth)), nil},
		{"on the bus itself", served(t).attach("main", leads(14, 60, onBus)), nil},
		{"size not known", served(t).attach("main", breaker(diagram.BreakerData{Rated: 60})), nil},
		{"no breaker of its own", served(t).attach("main", leads(14, 0)), []string{noDevice}},
		{"at the point of use", served(t).attach("sub", leads(14, 20, cord)), nil},
		{"by IEC", clinicSite(t).attach("main", of(diagram.ClassII), leads(10, 63)), nil},
	})
	f := served(t).attach("main", leads(10, 60)).one(analysis.SubjectBreaker)
	checkTexts(t, f, "SPD on main is on a breaker of 60\u00a0A with leads of 10 AWG, which allow at most 30\u00a0A",
		"a fault may melt the leads before the breaker opens",
		"use a breaker of at most 30\u00a0A, or thicker leads, unless the listing of the protector says otherwise",
		"NFPA 70:2023 section 240.4(D) (check your edition)")
	if diff := cmp.Diff(30.0, results(f.Working)["most for leads of this size, of copper"]); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
	// A bound of its own that is too much for its leads is not set by the program.
	bound := served(t).attach("main", leads(14, 70, func(p *diagram.Protector) { p.Breaker.Most = 60 })).found(analysis.SubjectBreaker)
	if len(bound) != 2 || bound[0].Mend.IsThere() || bound[1].Mend.IsThere() {
		t.Errorf("got %q, want two findings without a change", sayings(bound))
	}
}
