package rule

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/protector"
	"clampline/diagram"
)

func TestNameplate(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	kind := func(kind diagram.Type) func(*diagram.Protector) { return func(p *diagram.Protector) { p.Type = kind } }
	tests := []struct {
		name string
		p    diagram.Protector
		want []string
	}{
		{"usual", usual(wye208), nil},
		{"usual of IEC", usual(tns400), nil},

		{"no mode", usual(wye208, only()), []string{"warning: SPD states no mode"}},
		{"no mode connected", usual(wye208, only(), levelOf(700, ln)), []string{"warning: SPD has no mode connected"}},
		{"no level", usual(wye208, levelOf(0, lg, ng)), []string{"warning: SPD states no level in L-G and N-G"}},
		{"no level in a mode that is not connected", usual(wye208, only(ln)), nil},
		{"between lines of one", usual(single120, func(p *diagram.Protector) { p.Modes[ll] = diagram.ModeRating{Connected: true, Level: 1200} }),
			[]string{"warning: SPD has a mode L-L and one line"}},
		{"to a neutral that is not there", usual(delta480, func(p *diagram.Protector) { p.Modes[ln] = diagram.ModeRating{Connected: true, Level: 2000} }),
			[]string{"warning: SPD has L-N, and is made for 480 delta without a neutral"}},

		{"VPR on a class", usual(tns400, func(p *diagram.Protector) { p.Rating = diagram.VPR }), []string{"note: SPD is class II and its levels count as VPR"}},
		{"nothing said on a class", usual(tns400, func(p *diagram.Protector) { p.Rating = "" }), []string{"note: SPD is class II and its levels count as VPR"}},
		{"nothing said on a type", usual(wye208, func(p *diagram.Protector) { p.Rating = "" }), nil},
		{"an odd VPR on a class", usual(tns400, func(p *diagram.Protector) { p.Rating = diagram.VPR }, levelOf(1350, ln)), []string{"note: SPD is class II and its levels count as VPR"}},
		{"Up on a type", usual(wye208, func(p *diagram.Protector) { p.Rating = diagram.Up }), []string{"note: SPD is type 2 and its levels count as Up"}},

		{"between two steps", usual(wye208, levelOf(650, ln)), []string{"note: SPD states a VPR in L-N that no listing gives"}},
		{"below the lowest", usual(wye208, levelOf(320, ln)), []string{"warning: SPD states a VPR in L-N that no listing gives"}},
		{"the lowest", usual(wye208, levelOf(330, ln)), nil},
		{"the highest", usual(with(wye480, 600), levelOf(6000, ll)), nil},
		{"above the highest", usual(with(wye480, 600), levelOf(6100, ll)), []string{"warning: SPD states a VPR in L-L that no listing gives"}},
		{"an Up has no steps", usual(tns400, levelOf(1350, ln)), nil},

		{"below the crest", usual(tns400, levelOf(388, ln)), []string{"error: SPD has a level in L-N below the crest of its own continuous voltage"}},           // √2 × 275 V = 388.9 V
		{"above the crest, and still too low", usual(tns400, levelOf(390, ln)), []string{"warning: SPD has a level in L-N that no varistor of its Uc reaches"}}, // 1.42
		{"200 V at 150 V", usual(wye208, func(p *diagram.Protector) { p.Rating, p.Type = diagram.Up, "" }, levelOf(200, ln)), []string{"error: SPD has a level in L-N below the crest of its own continuous voltage"}},
		{"kilovolts", usual(tns400, levelOf(1.5, ln, lg, ng)), []string{"error: SPD has a level in L-N, L-G and N-G below the crest of its own continuous voltage"}},
		{"below the crest of its system", usual(wye480, rated(0, ln, lg, ng, ll), levelOf(330, ln)), []string{"error: SPD has a level in L-N below the crest of its own continuous voltage"}},
		{"twice its rating", usual(tns400, levelOf(550, ln)), nil},
		{"a gap may be lower", usual(tns400, gapped, levelOf(400, ng)), nil},
		{"ten times its rating", usual(tns400, levelOf(2750, ln)), nil},
		{"more", usual(tns400, levelOf(2800, ln)), []string{"note: SPD has a level in L-N of more than 10 times its Uc"}},
		{"a gap may be higher", usual(tns400, gapped, levelOf(4000, ng)), nil},

		{"rated below its own system", usual(wye480, rated(150, ln)), []string{"warning: SPD is made for 480Y/277 and has an MCOV in L-N below the voltage there"}},
		{"rated for just what its own system has", usual(wye480, rated(277, ln)), nil},
		{"made for ungrounded, rated for solid", usual(delta480, rated(320, lg)), []string{"warning: SPD is made for 480 delta and has an MCOV in L-G below the voltage there"}},
		{"the same where it states no earthing", usual(delta480, rated(320, lg), madeFor(earthed(delta480, ""))), nil},
		{"of a high leg the ordinary lines", usual(highLeg, rated(150, ln, lg)), nil},
		{"the rating of another mode", usual(wye480, rated(640, ln), levelOf(2000, ln)), []string{"note: SPD is made for 480Y/277 and has an MCOV in L-N of more than twice that"}},
		{"of IT on 230 V", usual(itn400), nil},

		{"type 1, In 20 kA", usual(wye208, kind(diagram.Type1)), nil},
		{"type 1, In 5 kA", usual(wye208, kind(diagram.Type1), func(p *diagram.Protector) { p.In = 5e3 }), []string{"warning: SPD is type 1 and states an In of 5 kA"}},
		{"type 2, In 3 kA", usual(wye208, func(p *diagram.Protector) { p.In = 3e3 }), nil},
		{"type 2, In 15 kA", usual(wye208, func(p *diagram.Protector) { p.In = 15e3 }), []string{"note: SPD states an In of 15 kA, which is none of the usual values"}},
		{"class II, In 15 kA", usual(tns400, func(p *diagram.Protector) { p.In = 15e3 }), nil},
		{"class II, In 12 kA", usual(tns400, func(p *diagram.Protector) { p.In = 12e3 }), []string{"note: SPD states an In of 12 kA, which is none of the usual values"}},
		{"class II, In 25 kA", usual(tns400, func(p *diagram.Protector) { p.In = 25e3 }), nil},
		{"class I without Iimp", usual(tns400, kind(diagram.ClassI)), []string{"warning: SPD is class I and states no Iimp"}},
		{"class I, 12.5 kA", usual(tns400, kind(diagram.ClassI), func(p *diagram.Protector) { p.Iimp = 12.5e3 }), nil},
		{"class I, 11 kA", usual(tns400, kind(diagram.ClassI), func(p *diagram.Protector) { p.Iimp = 11e3 }), []string{"note: SPD states an Iimp of 11 kA, which is none of the usual values"}},
		{"class I, 50 kA", usual(tns400, kind(diagram.ClassI), func(p *diagram.Protector) { p.Iimp = 50e3 }), nil},
		{"Imax below In", usual(tns400, func(p *diagram.Protector) { p.Imax = 10e3 }), []string{"warning: SPD has an Imax below its In"}},
		{"Imax as In", usual(tns400, func(p *diagram.Protector) { p.Imax = 20e3 }), nil},
		{"Imax below Iimp", usual(tns400, kind(diagram.ClassI), func(p *diagram.Protector) { p.Iimp, p.Imax = 25e3, 20e3 }), []string{"warning: SPD has an Imax below its Iimp"}},
		{"type 3, 20 kA", usual(wye208, kind(diagram.Type3)), []string{"note: SPD is type 3 and states the currents of a larger one"}},
		{"type 3, 10 kA", usual(wye208, kind(diagram.Type3), func(p *diagram.Protector) { p.In = 10e3 }), nil},
		{"class III with Iimp", usual(tns400, kind(diagram.ClassIII), func(p *diagram.Protector) { p.In, p.Iimp = 3e3, 1e3 }), []string{"note: SPD is class III and states the currents of a larger one"}},

		{"SCCR 65 kA", usual(wye208, func(p *diagram.Protector) { p.SCCR = 65e3 }), nil},
		{"SCCR 64 kA", usual(wye208, func(p *diagram.Protector) { p.SCCR = 64e3 }), []string{"note: SPD states an SCCR of 64 kA, which is none of the usual values"}},
		{"SCCR of a class", usual(tns400, func(p *diagram.Protector) { p.SCCR = 64e3 }), nil},
		{"type not stated", usual(wye208, kind(""), func(p *diagram.Protector) { p.In, p.SCCR = 15e3, 64e3 }), nil},
	}
	for _, test := range tests {
		found := Plausible(test.p)
		for _, f := range found {
			if f.What == "" || f.Why == "" || f.Remedy == "" || len(f.Records) != 1 || f.Subject != analysis.SubjectNameplate {
				t.Errorf("%s: a finding lacks something: %+v", test.name, f)
			}
		}
		if diff := cmp.Diff(append([]string{}, test.want...), plain(told(found, analysis.SubjectNameplate))); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// The working of a level out of proportion says in per cent of the continuous rating
// what was found.
func TestProportionOfALevel(t *testing.T) {
	for level, want := range map[float64]float64{390: 141.8, 2800: 1018.2} { // of 275 V
		found := Plausible(usual(tns400, levelOf(level, diagram.LineNeutral)))
		if len(found) != 1 {
			t.Fatalf("%g V: got %+v", level, found)
		}
		if last := found[0].Working[len(found[0].Working)-1]; last.Unit != "%" || math.Abs(last.Result-want) > 0.1 {
			t.Errorf("%g V: got %+v, want %g %%", level, last, want)
		}
	}
}

// Whatever value the standards list is taken, and a tenth of a step beside it is
// remarked upon with the list. In and Iimp of a class: IEC 61643-11, preferred values
// (public summary); In of a type: UL 1449 (public summary of the 3rd edition); the
// steps of an SCCR are usual ones (from memory).
func TestListedCurrents(t *testing.T) {
	for _, row := range []struct {
		name  string
		p     diagram.Protector
		field func(*diagram.Protector) *float64
		kilo  []float64
		text  string
	}{
		{"class II", usual(tns400), func(p *diagram.Protector) *float64 { return &p.In }, []float64{0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 2.5, 3, 5, 10, 15, 20},
			"the standard has 0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 2.5, 3, 5, 10, 15 or 20 kA"},
		{"class I", usual(tns400, func(p *diagram.Protector) { p.Type = diagram.ClassI }), func(p *diagram.Protector) *float64 { return &p.Iimp }, []float64{1, 2, 5, 10, 12.5, 20, 25},
			"the standard has 1, 2, 5, 10, 12.5, 20 or 25 kA"},
		{"type 2", usual(wye208), func(p *diagram.Protector) *float64 { return &p.In }, []float64{3, 5, 10, 20}, "the standard has 3, 5, 10 or 20 kA"},
		{"type 1", usual(wye208, func(p *diagram.Protector) { p.Type = diagram.Type1 }), func(p *diagram.Protector) *float64 { return &p.In }, []float64{10, 20}, "the standard has 10 or 20 kA"},
		{"SCCR", usual(wye208), func(p *diagram.Protector) *float64 { return &p.SCCR }, []float64{5, 10, 14, 18, 22, 25, 30, 42, 50, 65, 85, 100, 125, 150, 200},
			"usual are 5, 10, 14, 18, 22, 25, 30, 42, 50, 65, 85, 100, 125, 150 or 200 kA"},
	} {
		remarked := func(amperes float64) string {
			p := row.p
			*row.field(&p) = amperes
			for _, f := range Plausible(p) {
				if strings.Contains(f.What, "none of the usual values") {
					return strings.ReplaceAll(f.Why, "\u00a0", " ")
				}
			}
			return ""
		}
		for _, kilo := range row.kilo {
			if got := remarked(kilo * 1e3); got != "" {
				t.Errorf("%s, %g kA: got %q", row.name, kilo, got)
			}
			if got := remarked(kilo * 0.9e3); got != row.text {
				t.Errorf("%s, %g kA: got %q, want %q", row.name, kilo*0.9, got, row.text)
			}
		}
	}
}

// The values of a VPR are those of UL 1449 (from memory), from 330 to 6000 V; a tenth
// below each is none, and the working names it as the next one.
func TestListedLevels(t *testing.T) {
	for _, volts := range []float64{330, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 1800, 2000, 2500, 3000, 4000, 5000, 6000} {
		next := func(level float64) float64 {
			p := usual(wye208, levelOf(level, diagram.LineNeutral), rated(0, diagram.LineNeutral), madeFor(diagram.System{}))
			for _, f := range Plausible(p) {
				if strings.Contains(f.What, "no listing gives") {
					return f.Working[len(f.Working)-1].Result
				}
			}
			return 0
		}
		if got := next(volts); got != 0 {
			t.Errorf("%g V: told that no listing gives it, but %g V", volts, got)
		}
		if got := next(0.95 * volts); got != volts {
			t.Errorf("%g V: got %g V as the next, want %g", 0.95*volts, got, volts)
		}
	}
}

// plain writes the spaces that no line is broken at as plain ones.
func plain(lines []string) []string {
	out := []string{}
	for _, line := range lines {
		out = append(out, strings.ReplaceAll(line, "\u00a0", " "))
	}
	return out
}

// The working of a VPR between two steps names the next one above.
func TestNextStep(t *testing.T) {
	for level, want := range map[float64]float64{1: 330, 331: 400, 650: 700, 5999: 6000} {
		p := usual(wye208, levelOf(level, diagram.LineNeutral), rated(0, diagram.LineNeutral), madeFor(diagram.System{}))
		for _, f := range Plausible(p) {
			last := f.Working[len(f.Working)-1]
			if last.Label != "next value above" || last.Result != want {
				t.Errorf("%g V: got %+v, want %g V", level, last, want)
			}
		}
	}
}

// Typical curves of varistors lie between the ratios that the rule on levels
// takes for possible, at the currents of the tests and with the spread of single
// parts.
func TestPublishedCurvesArePossible(t *testing.T) {
	for _, m := range protector.Published() {
		for _, amps := range []float64{1e3, 3e3, 20e3} {
			if ratio := m.Voltage(amps) / m.Rated; ratio*0.9 < lowestLevel || ratio*1.1 > highestLevel {
				t.Errorf("%s at %g A: the ratio is %.2f, which the rule takes for impossible", m.Name, amps, ratio)
			}
		}
		if ratio := m.Voltage(1e-3) / m.Rated; ratio < math.Sqrt2 || ratio > lowestLevel {
			t.Errorf("%s at 1 mA: the ratio is %.2f; it conducts there, and a level there is none", m.Name, ratio)
		}
	}
}

// The change that mends a mixed practice takes the finding away.
func TestMixedPracticeIsMended(t *testing.T) {
	p := usual(wye208, func(p *diagram.Protector) { p.Rating = diagram.Up })
	doc := building(t, wye208, func(tx *diagram.Tx) { placed(tx, p, "panel") })
	if _, err := doc.Edit(Plausible(p)[0].Mend.Apply); err != nil {
		t.Fatal(err)
	}
	if after, _ := doc.Protector("spd"); after.Rating != diagram.VPR || len(Plausible(after)) > 0 {
		t.Errorf("got %s, %+v", after.Rating, Plausible(after))
	}
}

// A rating that the place does not stand is told once: by the rule on the place.
func TestRatingIsToldOnce(t *testing.T) {
	const ln, lg = diagram.LineNeutral, diagram.LineEarth
	for _, test := range []struct {
		name string
		bus  diagram.System
		p    diagram.Protector
		want []string
	}{
		{"below the voltage there", wye208, usual(wye208, rated(115, ln, lg)), nil},
		{"in one mode, and another contradicts alone", wye208, usual(wye480, madeFor(wye480), rated(115, ln), rated(150, lg), levelOf(700, ln)),
			[]string{"warning: SPD is made for 480Y/277 and has an MCOV in L-G below the voltage there"}},
		{"stands the place, not its own system", wye208, usual(wye208, madeFor(wye480)),
			[]string{"warning: SPD is made for 480Y/277 and has an MCOV in L-N, L-G and L-L below the voltage there"}},
	} {
		doc := building(t, test.bus, func(tx *diagram.Tx) { placed(tx, test.p, "panel") })
		if diff := cmp.Diff(append([]string{}, test.want...), told(checkAll(doc), analysis.SubjectNameplate)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}
