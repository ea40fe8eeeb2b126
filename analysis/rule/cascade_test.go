package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// inRow is a service board with a protector of 1200 V, and a panel at a distance.
func inRow(t *testing.T, metres float64, first ...func(*diagram.Protector)) *site {
	s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, MainBreaker: 60}).board("sub", diagram.BoardData{}).
		wire(5, "", "supply > main").wire(metres, diagram.Breaker, "main > sub")
	return s.attach("main", append([]func(*diagram.Protector){named("first"), clamps(1200)}, first...)...)
}

// unfedRow is two boards in a row that no supply feeds.
func unfedRow(t *testing.T) *site {
	s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, MainBreaker: 60}).board("sub", diagram.BoardData{}).wire(5, diagram.Breaker, "main > sub")
	s.alter("main", func(p *diagram.Part) { p.System = splitOf240 })
	return s
}

func named(name string) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.Name = name }
}

// clamps sets the level of every mode, V.
func clamps(level float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) {
		for _, mode := range diagram.Modes() {
			p.Modes[mode].Level = level
		}
	}
}

func TestCascade(t *testing.T) {
	small := func(p *diagram.Protector) { p.In = 5e3 }
	up := func(p *diagram.Protector) { p.Rating = diagram.Up }
	gap := func(p *diagram.Protector) { p.Modes[diagram.LineNeutral].Switching = true }
	long := func(p *diagram.Protector) { // 16 in each, of which a VPR includes 6: 10 in at 25 V each
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = 16*0.0254, 16*0.0254, 16*0.0254
	}
	says := func(severity, distance, own, other string) []string {
		return []string{severity + ": SPD on sub takes the surge before first on main, " + distance + " upstream: with its leads it limits to " + own + ", the other to " + other}
	}
	near := says("warning", "16\u00a0ft", "700\u00a0V", "1\u00a0200\u00a0V")
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"lower and smaller, 5\u00a0m on", inRow(t, 5).attach("sub", clamps(700), small), near},
		{"lower and as large", inRow(t, 5).attach("sub", clamps(700)), nil},
		{"lower, its current not stated", inRow(t, 5).attach("sub", clamps(700), carries(0)), says("note", "16\u00a0ft", "700\u00a0V", "1\u00a0200\u00a0V")},
		{"lower, the current upstream not stated", inRow(t, 5, carries(0)).attach("sub", clamps(700)), says("note", "16\u00a0ft", "700\u00a0V", "1\u00a0200\u00a0V")},
		{"lower by a fifth", inRow(t, 5).attach("sub", clamps(960), small), says("warning", "16\u00a0ft", "960\u00a0V", "1\u00a0200\u00a0V")},
		{"lower by less", inRow(t, 5).attach("sub", clamps(1000), small), nil},
		{"the same", inRow(t, 5).attach("sub", clamps(1200), small), nil},
		{"the same, long leads upstream", inRow(t, 5, clamps(700), long).attach("sub", clamps(700), small), says("warning", "16\u00a0ft", "700\u00a0V", "950\u00a0V")},
		{"10\u00a0m on", inRow(t, 10).attach("sub", clamps(700), small), nil},
		{"10\u00a0m behind a gap", inRow(t, 10, gap).attach("sub", clamps(700), small), says("warning", "33\u00a0ft", "700\u00a0V", "1\u00a0200\u00a0V")},
		{"15\u00a0m behind a gap", inRow(t, 15, gap).attach("sub", clamps(700), small), nil},
		{"the length is not known", inRow(t, 0).attach("sub", clamps(700), small), nil},
		{"its level is not stated", inRow(t, 5).attach("sub", small), nil},
		{"its level is not stated, nor what its long leads are added to", inRow(t, 5).attach("sub", small, long), nil},
		{"that upstream is not, on long leads", inRow(t, 5, clamps(0), long).attach("sub", clamps(100), small), nil},
		{"nothing feeds the first", unfedRow(t).attach("main", named("first"), clamps(1200)).attach("sub", clamps(700), small), near},
		{"that upstream is not", inRow(t, 5, clamps(0)).attach("sub", clamps(700), small), nil},
		{"a VPR and an Up", inRow(t, 5, up).attach("sub", clamps(700), small), nil},
		{"on one board", inRow(t, 5).attach("main", clamps(700), small), nil},
		{"one tested with an impulse current upstream", inRow(t, 5, func(p *diagram.Protector) { p.Iimp = 12.5e3 }).attach("sub", clamps(700)), near},
		{
			"behind a transformer",
			newSite(t, wyeOf480).board("main", diagram.BoardData{Service: true, MainBreaker: 60}).stepDown("T1", wyeOf480, wyeOf208).board("low", diagram.BoardData{}).
				wire(2, "", "supply > main").wire(2, diagram.Breaker, "main > T1:primary", "T1:secondary > low").
				attach("main", clamps(1200)).attach("low", clamps(700), small), nil,
		},
	})
	f := inRow(t, 5).attach("sub", clamps(700), small).one(analysis.SubjectPlace)
	checkTexts(t, f, near[0][len("warning: "):],
		"most of the surge flows through it, and it is rated for less: it wears out or fails first, while the other stays idle; wiring between helps only while the current rises",
		"put one that limits to about 700\u00a0V or less in place of first, or shorten its leads; or use one here rated for as much; or have at least 33\u00a0ft of wiring between",
		"F. D. Martzloff and J.-S. Lai, Cascading surge-protective devices: coordination versus the IEC 664 staircase, 1991; how much wiring is enough: IEC 61643-12 (from memory; check your edition)")
	const leads = "25 V per inch beyond six inches, common practice, no source; six inches: UL 1449"
	want := analysis.Working{
		{Label: "wiring between the two", Result: 5, Unit: "m", Source: "from the sheet"},
		{Label: "with leads, SPD", Result: 700, Unit: "V", Source: leads},
		{Label: "with leads, first", Result: 1200, Unit: "V", Source: leads},
		{Label: "lower by", Formula: "1 − U / U_upstream", Numbers: "1 − 700\u00a0V / 1\u00a0200\u00a0V", Result: 100 * (1 - 700.0/1200), Unit: "%", Source: "told from 20 % on; common practice, no source"},
	}
	if diff := cmp.Diff(want, f.Working); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}

// Of three in a row each is compared with the nearest one upstream, which stands
// between it and the first; of two there with the one that limits the lower.
func TestCascadeOfThree(t *testing.T) {
	small := func(p *diagram.Protector) { p.In = 5e3 }
	row := func(first, second float64, alter ...func(*diagram.Protector)) *site {
		s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, MainBreaker: 60}).board("sub", diagram.BoardData{}).board("far", diagram.BoardData{}).
			wire(5, "", "supply > main").wire(4, diagram.Breaker, "main > sub").wire(5, diagram.Breaker, "sub > far")
		s.attach("main", named("first"), clamps(first)).attach("sub", append([]func(*diagram.Protector){named("second"), clamps(second)}, alter...)...)
		return s.attach("far", named("third"), clamps(700), small)
	}
	takes := func(who, place, from, at, distance, own, other string) string {
		return "warning: " + who + " on " + place + " takes the surge before " + from + " on " + at + ", " + distance + " upstream: with its leads it limits to " + own + ", the other to " + other
	}
	const high = "1\u00a0200\u00a0V"
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"the second as low as the third", row(1200, 700), nil},
		{"the second as high as the first", row(1200, 1200), []string{takes("third", "far", "second", "sub", "16\u00a0ft", "700\u00a0V", high)}},
		{"the first lower than both behind it", row(500, 1200), []string{takes("third", "far", "second", "sub", "16\u00a0ft", "700\u00a0V", high)}},
		{"the second low and small", row(1200, 700, small), []string{takes("second", "sub", "first", "main", "13\u00a0ft", "700\u00a0V", high)}},
		{"two beside each other in the middle", row(1200, 1200).attach("sub", named("beside"), clamps(900)), []string{takes("third", "far", "beside", "sub", "16\u00a0ft", "700\u00a0V", "900\u00a0V")}},
		{"beside one that states no level", row(1200, 1200).attach("sub", named("beside"), clamps(0)), []string{takes("third", "far", "second", "sub", "16\u00a0ft", "700\u00a0V", high)}},
		{"the second states no level", row(1200, 0), nil},
		{"beside each other, half a volt apart", row(1200, 1200).attach("sub", named("beside"), clamps(1199.5)), []string{takes("third", "far", "beside", "sub", "16\u00a0ft", "700\u00a0V", high)}},
	})
}

// Class III belongs behind one that takes the surge, and not right behind it.
func TestCascadeByIEC(t *testing.T) {
	up := func(p *diagram.Protector) { p.Rating = diagram.Up }
	two := func(metres float64, kind diagram.Type) *site {
		s := clinicSite(t).kind(diagram.Load, "desk").wire(metres, diagram.Breaker, "main > desk")
		return s.attach("main", named("first"), of(diagram.ClassII), up, clamps(2000)).attach("desk", of(kind), up, clamps(1250))
	}
	const lower = "warning: SPD on desk takes the surge before first on main, 4\u00a0m upstream: with its leads it limits to 1\u00a0250\u00a0V, the other to 2\u00a0000\u00a0V"
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"class III, 4\u00a0m on", two(4, diagram.ClassIII), []string{lower}},
		{"class III, 12\u00a0m on", two(12, diagram.ClassIII), nil},
		{"class II of the same current, 4\u00a0m on", two(4, diagram.ClassII), nil},
	})
}
