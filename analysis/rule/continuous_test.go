package rule

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// The table of the least Uc, IEC 60364-5-53 clause 534, in its newer and older
// form; that of TN and TT as a public handbook prints it.
func TestLeastUc(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	tests := []struct {
		name         string
		bus          diagram.System
		mode         diagram.Mode
		newer, older float64 // V
	}{
		{"TN-S L-N", tns400, ln, 253, 253},
		{"TN-S L-PE", tns400, lg, 253, 253},
		{"TN-S N-PE", tns400, ng, 230, 230},
		{"TN-S L-L", tns400, ll, 440, 440},
		{"TN-C L-PEN", tnc400, lg, 253, 253},
		{"TT L-N", tt400, ln, 253, 253},
		{"TT L-PE", tt400, lg, 253, 253},
		{"TT N-PE", tt400, ng, 230, 230},
		{"IT with neutral L-N", itn400, ln, 253, 253},
		{"IT with neutral L-PE", itn400, lg, 440, 400},
		{"IT with neutral N-PE", itn400, ng, 253, 230},
		{"IT without neutral L-PE", it400, lg, 440, 400},
		{"690 V L-PE", with(tns400, 690), lg, 440, 440},
		{"240 V to neutral, L-N", with(tns400, 415), ln, 264, 264},
		{"single phase L-N", diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS}, ln, 253, 253},
	}
	for _, test := range tests {
		for table, want := range map[diagram.UcTable]float64{"": test.newer, diagram.UcNewer: test.newer, diagram.UcOlder: test.older} {
			s := site{place: &place{system: test.bus}}
			got := leastUc(test.bus, test.mode, s.free(), table)
			if got.volts != want || got.formula == "" || got.numbers == "" || got.source != ucSource(table) {
				t.Errorf("%s, %q: got %+v, want %g V", test.name, table, got, want)
			}
		}
	}
}

func TestContinuous(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	iec, older := diagram.Codes{Practice: diagram.IECPractice}, diagram.Codes{Uc: diagram.UcOlder}
	unstated := func(p *diagram.Protector) { rated(0, ln, lg, ng, ll)(p) }
	tests := []struct {
		name  string
		bus   diagram.System
		p     diagram.Protector
		codes diagram.Codes
		want  []string
	}{
		{name: "usual", bus: wye208, p: usual(wye208)},
		{name: "bus not known", p: usual(wye208)},
		{name: "below nominal", bus: wye208, p: usual(wye208, rated(115, ln, lg)), want: []string{"error: SPD on the bus: MCOV too low for 208Y/120 in L-N and L-G"}},
		{name: "at nominal", bus: wye208, p: usual(wye208, rated(120, ln)), want: []string{"warning: SPD on the bus has little margin for swells in L-N"}},
		{name: "below range B", bus: wye208, p: usual(wye208, rated(126, ln)), want: []string{"warning: SPD on the bus has little margin for swells in L-N"}},
		{name: "at range B", bus: wye208, p: usual(wye208, rated(127, ln)), want: []string{"note: SPD on the bus has little margin for swells in L-N"}},
		{name: "at 1.1 times", bus: wye208, p: usual(wye208, rated(132, ln))},
		{name: "two lines that do not say of what they are", bus: twoLines240, p: usual(twoLines240, rated(140, lg))},
		{name: "the same, below what may stand there", bus: twoLines240, p: usual(twoLines240, rated(130, lg)), want: []string{"error: SPD on the bus: MCOV too low for 240 2-wire in L-G"}},
		{name: "between neutral and earth nothing stands", bus: wye208, p: usual(wye208, rated(10, ng))},
		{name: "between lines too low", bus: wye208, p: usual(wye208, rated(150, ll)), want: []string{"error: SPD on the bus: MCOV too low for 208Y/120 in L-L"}},
		{name: "a floating neutral", bus: earthed(wye480, diagram.Impedance), p: usual(earthed(wye480, diagram.Impedance), rated(250, ng)),
			want: []string{"error: SPD on the bus: MCOV too low for an impedance-earthed 480\u00a0V wye in N-G"}},
		{name: "not stated, made for it", bus: wye208, p: usual(wye208, unstated), want: []string{"note: SPD on the bus does not state its MCOV in L-N, L-G and L-L"}},
		{name: "not stated, not made for anything", bus: wye208, p: usual(wye208, unstated, madeFor(diagram.System{})),
			want: []string{"warning: SPD on the bus does not state its MCOV in L-N, L-G and L-L"}},
		{name: "neither level nor rating", bus: wye208, p: usual(wye208, unstated, levelOf(0, ln, lg, ng, ll))},
		{name: "the earthing tells of L-G", bus: delta480, p: usual(wye480)},
		{name: "the high leg tells of L-N", bus: highLeg, p: usual(highLeg, rated(150, ln, lg))},
		{name: "below the ordinary lines", bus: highLeg, p: usual(highLeg, rated(100, ln)), want: []string{"error: SPD on the bus: MCOV too low for 240/120 high leg in L-N"}},
		{name: "a mode without a conductor", bus: delta480, p: usual(delta480, func(p *diagram.Protector) {
			p.Modes[ln] = diagram.ModeRating{Connected: true, Level: 1200, MCOV: 100}
		})},

		{name: "253 V on TN-S", bus: tns400, p: usual(tns400, rated(253, ln, lg))},
		{name: "252 V on TN-S", bus: tns400, p: usual(tns400, rated(252, lg)), want: []string{"error: SPD on the bus: Uc too low for 400/230 TN-S in L-G"}},
		{name: "229 V from neutral", bus: tns400, p: usual(tns400, rated(229, ng)), want: []string{"error: SPD on the bus: Uc too low for 400/230 TN-S in N-G"}},
		{name: "TN-C has no neutral of its own", bus: tnc400, p: usual(tnc400, rated(10, ng))},
		{name: "440 V on 690/400", bus: with(tns400, 690), p: usual(with(tns400, 690), rated(440, ln, lg, ng))},
		{name: "440 V on IT", bus: it400, p: usual(it400, rated(440, lg))},
		{name: "420 V on IT", bus: it400, p: usual(it400, rated(420, lg)), want: []string{"error: SPD on the bus: Uc too low for 400 3-wire IT in L-G"}},
		{name: "420 V on IT, older table", bus: it400, p: usual(it400, rated(420, lg)), codes: older},
		{name: "230 V from neutral of IT, older table", bus: itn400, p: usual(itn400, rated(230, ng)), codes: older},
		{name: "230 V from neutral of IT", bus: itn400, p: usual(itn400, rated(230, ng)), want: []string{"error: SPD on the bus: Uc too low for 400/230 IT in N-G"}},
		{name: "not stated, made for TN-S", bus: tns400, p: usual(tns400, unstated),
			want: []string{"note: SPD on the bus does not state its Uc in L-N, L-G and N-G"}},
		{name: "by IEC on a solid neutral", bus: wye480, p: usual(wye480, rated(300, ln)), codes: iec, want: []string{"error: SPD on the bus: MCOV too low for 480Y/277 in L-N"}},
		{name: "by North America on TN-S", bus: tns400, p: usual(tns400, rated(235, ln)), codes: diagram.Codes{Practice: diagram.NECPractice},
			want: []string{"warning: SPD on the bus has little margin for swells in L-N"}},
	}
	for _, test := range tests {
		found := Fits(test.p, test.bus, test.codes)
		complete(t, test.name, found)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectContinuous)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// Below what stands there it burns; below the table it ages. Only the first is
// to be switched off.
func TestContinuousTexts(t *testing.T) {
	for _, test := range []struct {
		name        string
		mcov        float64
		why, remedy string
	}{
		{"below nominal", 220, "can burn", "keep it switched off until one with at least 253\u00a0V L-N is in its place"},
		{"below the table", 240, "ages fast", "replace it by one with at least 253\u00a0V L-N"},
	} {
		found := Fits(usual(tns400, rated(test.mcov, diagram.LineNeutral)), tns400, diagram.Codes{})
		if len(found) != 1 || !strings.Contains(found[0].Why, test.why) || found[0].Remedy != test.remedy {
			t.Errorf("%s: got %+v; want %q, %q", test.name, found, test.why, test.remedy)
			continue
		}
		want := analysis.Working{
			{Label: "Uc L-N", Result: test.mcov, Unit: "V", Source: fromSheet},
			{Label: "least L-N on 400/230 TN-S", Formula: "1.1 U0", Numbers: "1.1 × 230\u00a0V", Result: 253, Unit: "V", Source: ucSource("")},
		}
		if diff := cmp.Diff(want, found[0].Working); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}
