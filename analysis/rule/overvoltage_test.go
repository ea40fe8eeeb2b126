package rule

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// The temporary overvoltages of IEC 61643-11:2011 annex B at 230 V, from memory,
// with Uref 253 V.
func TestOvervoltages(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	type over struct {
		volts, seconds float64
		mayFail        bool
	}
	swell, lost := over{334, 5, false}, over{438, 7200, true}
	for _, test := range []struct {
		name string
		bus  diagram.System
		mode diagram.Mode
		want []over
	}{
		{"TN-S L-N", tns400, ln, []over{swell, lost}},
		{"TN-S L-PE", tns400, lg, []over{swell, lost}},
		{"TN-C L-PEN", tnc400, lg, []over{swell, lost}},
		{"TN-S N-PE", tns400, ng, nil},
		{"TT L-N", tt400, ln, []over{swell, lost}},
		{"TT L-PE", tt400, lg, []over{{438, 5, false}, {1453, 0.2, true}}},
		{"TT N-PE", tt400, ng, []over{{1200, 0.2, false}}},
		{"IT L-PE", it400, lg, []over{{1453, 0.2, true}}},
		{"between lines", tns400, ll, nil},
		{"not of IEC", wye480, lg, nil},
	} {
		var got []over
		for _, o := range overvoltages(test.bus, test.mode) {
			got = append(got, over{math.Round(o.volts), o.seconds, o.mayFail})
		}
		if diff := cmp.Diff(test.want, got, cmp.AllowUnexported(over{})); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

func TestFaultSeconds(t *testing.T) {
	const ln, lg, ng = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth
	three := func(alter ...func(*diagram.Protector)) diagram.Protector {
		return straight(tt400, append([]func(*diagram.Protector){only(ln, ng)}, alter...)...)
	}
	for _, test := range []struct {
		name     string
		bus      diagram.System
		p        diagram.Protector
		residual bool
		want     []string
	}{
		{"TN-S, usual", tns400, usual(tns400), false, nil},
		{"TN-S, the least", tns400, usual(tns400, rated(253, ln, lg)), false, nil},
		{"IT, usual", it400, usual(it400), false, nil},
		{"TT, a varistor to earth", tt400, three(), false, []string{"warning: SPD on Panel has a varistor without a gap between neutral and earth, and the system is TT"}},
		{"TT, a gap to earth", tt400, three(gapped), false, nil},
		{"TT, straight to earth: the earthing tells", tt400, straight(tt400), false, nil},
		{"TT, straight to earth behind a residual-current device", tt400, straight(tt400, gapped), true,
			[]string{"note: SPD on Panel may not withstand a network fault in L-G"}},
		{"the same with varistors to the neutral", tt400, straight(tt400), true,
			[]string{"note: SPD on Panel may not withstand a network fault in L-G", "note: SPD on Panel may not withstand a network fault in N-G"}},
		{"the same with a Uc for it", tt400, straight(tt400, gapped, rated(335, lg)), true, nil},
		{"TT, Uc not stated", tt400, three(rated(0, ng)), false, nil},
		{"TT, Uc too low altogether", tt400, three(rated(200, ng)), false, nil},
		{"North America", wye480, usual(wye480), false, nil},
	} {
		doc := behindResidual(t, test.bus, test.p, test.residual)
		got := []string{}
		for _, f := range checkAll(doc) {
			if f.Subject == analysis.SubjectContinuous && strings.HasPrefix(f.Source, overvoltageSource) {
				got = append(got, f.Severity.String()+": "+f.What)
			}
		}
		if diff := cmp.Diff(append([]string{}, test.want...), got); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// behindResidual is a panel with a protector on it, fed through a residual-current
// device or not.
func behindResidual(t *testing.T, bus diagram.System, p diagram.Protector, residual bool) *diagram.Document {
	t.Helper()
	return building(t, bus, func(tx *diagram.Tx) {
		f := feeder("feeder", "supply", "panel")
		f.Switch.Residual = residual
		tx.SetFeeder(f)
		placed(tx, p, "panel")
	})
}

// Where a protector may fail safely at a further overvoltage, that is told; between
// neutral and earth the standard lets nothing fail.
func TestSafeFailureIsTold(t *testing.T) {
	want := map[string]string{
		"continuous.network fault":    "438\u00a0V there for 5\u00a0s",
		"continuous.neutral in fault": "1\u00a0200\u00a0V there for 0.2\u00a0s",
	}
	for _, f := range checkAll(behindResidual(t, tt400, straight(tt400), true)) {
		puts, ok := want[f.Rule]
		if !ok {
			continue
		}
		if lines := f.Rule == "continuous.network fault"; !strings.Contains(f.Why, puts) || strings.Contains(f.Why, "fail") != lines {
			t.Errorf("%s: got %q", f.Rule, f.Why)
		}
		delete(want, f.Rule)
	}
	for rule := range want {
		t.Errorf("%s: got nothing", rule)
	}
}
